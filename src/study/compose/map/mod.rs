//! The operating map: every place of a grid of engine speed and manifold pressure solved as a duty is.

mod figures;
mod limits;
mod variant;

use super::blow_by::{Areas, Running, cylinder_at};
use super::context::Context;
use super::crankcase;
use super::{Fail, problem};
use crate::crankcase::arrangement::{AIR_CLEANER, Bare, Boundary, Follower, Ventilation, VentilationError};
use crate::crankcase::blow_by::BlowBy;
use crate::crankcase::cylinder::defaults::{MANIFOLD, SPEED};
use crate::crankcase::network::NetworkError;
use crate::quantity::si::{AngularVelocity, MassRate};
use crate::quantity::{AbsolutePressure, GaugePressure, Measured};
use crate::scribe::Silent;
use crate::study::{
    Duty, Map, MapCase, MapCell, MapComparison, MapGrid, MapMark, MapState, Problems, Project, Span, Unsolved, Variant,
};
use figures::Burn;
use limits::Limits;
use rayon::prelude::*;

/// Values along one side of a map.
const POINTS: std::ops::RangeInclusive<usize> = 2..=400;

/// The grid a project's duties span: from the slowest to a tenth above full throttle, from the least to the greatest
/// manifold pressure.
pub(in crate::study) fn usual_grid(project: &Project, columns: usize, rows: usize) -> Result<MapGrid, Problems> {
    throttled(project)?;
    let context = Context::new(project, &mut Silent)?;
    let speeds = Duty::ALL.map(|duty| project.duty.of(duty).rpm.base());
    let [idle, .., full, _] = speeds;
    let manifolds = context.manifold.map(|(manifold, _)| manifold.base());
    let least = |values: &[f64]| values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = |values: &[f64]| values.iter().copied().fold(0.0, f64::max);
    let (low, high) = (least(&manifolds), most(&manifolds));
    Ok(MapGrid {
        rpm: Span {
            from: AngularVelocity::from_base(least(&speeds).min(idle)),
            to: AngularVelocity::from_base(most(&speeds).max(1.1 * full).min(SPEED.high)),
            points: columns,
        },
        manifold: Span {
            from: AbsolutePressure::from_base(low),
            // Duties that all have one manifold pressure still span a map.
            to: AbsolutePressure::from_base(if high > low { high } else { low + 1e3 }),
            points: rows,
        },
    })
}

/// A diesel's load is its fuel: at one manifold pressure it may idle or pull with all it has.
fn throttled(project: &Project) -> Result<(), Problems> {
    if project.engine.is_diesel() {
        let message = "a diesel has no throttle, so that its manifold pressure does not tell its load and there is no map \
                       over it; the duty points tell what it does";
        return Err(problem("engine.fuel", message));
    }
    Ok(())
}

fn check(grid: &MapGrid) -> Result<(), Problems> {
    for (path, points) in [("map.rpm", grid.rpm.points), ("map.manifold", grid.manifold.points)] {
        if !POINTS.contains(&points) {
            let (low, high) = (POINTS.start(), POINTS.end());
            return Err(problem(
                path,
                format!("{points} steps are outside {low} to {high}; 60 speeds by 40 pressures do"),
            ));
        }
    }
    for rpm in [grid.rpm.from, grid.rpm.to] {
        SPEED.check(rpm).fail("map.rpm")?;
    }
    for manifold in [grid.manifold.from, grid.manifold.to] {
        MANIFOLD.check(manifold).fail("map.manifold")?;
    }
    if grid.rpm.from >= grid.rpm.to {
        return Err(problem("map.rpm", "the last speed must be above the first"));
    }
    if grid.manifold.from >= grid.manifold.to {
        return Err(problem("map.manifold", "the last manifold pressure must be above the first"));
    }
    Ok(())
}

/// What a whole map shares.
struct Field<'a> {
    context: &'a Context<'a>,
    areas: Areas,
    full_air: MassRate,
    burn: Burn,
    limits: Limits,
    ventilation: Ventilation,
}

impl<'a> Field<'a> {
    fn of(context: &'a Context<'a>, variant: &Variant) -> Result<Self, Problems> {
        let full = Duty::FullThrottle;
        let cylinder = cylinder_at(context, full, Running::at(context, full), "duty.full_throttle", &mut Silent)?;
        let ventilation = variant::ventilation(&context.project.ventilation, variant)?;
        Ok(Self {
            areas: Areas::of(context, &cylinder, &mut Silent)?,
            full_air: cylinder.trace.air_flow(),
            burn: Burn::of(context)?,
            limits: Limits::of(context),
            ventilation,
            context,
        })
    }

    /// A row of cells.
    fn row(&self, grid: &MapGrid, row: usize) -> Vec<MapCell> {
        let manifold = grid.manifold.at(row as f64);
        let shared = match self.burn.row(self.context, &self.areas, manifold) {
            Ok(shared) => shared,
            Err(error) => return vec![MapCell::Unsolved(Unsolved::OutOfRange(error.to_string())); grid.rpm.points],
        };
        let under_load = self.limits.under_load(manifold);
        let mut place = Place::new(self, manifold, shared.blow_by, under_load, self.limits.wide_open(manifold));
        (0..grid.rpm.points).map(|column| place.cell(shared.air(grid.rpm.at(column as f64)))).collect()
    }

    /// A duty with its own figures.
    fn mark(&self, duty: Duty) -> Result<MapMark, Problems> {
        let running = Running::at(self.context, duty);
        let Running { speed: rpm, manifold, .. } = running;
        let path = format!("duty.{}", duty.word());
        let cylinder = cylinder_at(self.context, duty, running, &path, &mut Silent)?;
        let blow_by = self.areas.judged(&cylinder)?;
        let wide_open = duty == Duty::FullThrottle;
        let mut place = Place::new(self, manifold, blow_by, duty.under_load(), wide_open);
        let cell = place.cell(cylinder.trace.air_flow());
        Ok(MapMark { duty, rpm, manifold, cell, on_map: self.burn.is_on_map(duty) })
    }
}

/// One manifold pressure and blow-by, at any air flow.
struct Place<'f> {
    field: &'f Field<'f>,
    manifold: AbsolutePressure,
    blow_by: BlowBy,
    under_load: bool,
    wide_open: bool,
    /// One for each blow-by, so that each sees the same network again where speed is not felt.
    likely: Follower<'f>,
    high: Follower<'f>,
    deep: [Follower<'f>; 4],
}

impl<'f> Place<'f> {
    fn new(
        field: &'f Field<'f>,
        manifold: AbsolutePressure,
        blow_by: BlowBy,
        under_load: bool,
        wide_open: bool,
    ) -> Self {
        let follower = || Follower::new(&field.ventilation);
        let deep = std::array::from_fn(|_| follower());
        Self { field, manifold, blow_by, under_load, wide_open, likely: follower(), high: follower(), deep }
    }

    fn cell(&mut self, air: MassRate) -> MapCell {
        self.solved(air).map_or_else(MapCell::Unsolved, MapCell::Solved)
    }

    fn solved(&mut self, air: MassRate) -> Result<MapState, Unsolved> {
        let filter = self.field.context.filter_depression(air, self.field.full_air).likely;
        AIR_CLEANER.check(filter).map_err(|outside| Unsolved::OutOfRange(outside.to_string()))?;
        let (context, manifold) = (self.field.context, self.manifold);
        let at = |blow_by| crankcase::boundary(context, blow_by, manifold, filter);
        let case = |follower: &mut Follower<'_>, blow_by| {
            let Bare { gauge, breather, valve } = follower.at(&at(blow_by)).map_err(|error| of_ventilation(&error))?;
            Ok(MapCase { blow_by, gauge, breather, valve })
        };
        let likely = case(&mut self.likely, self.blow_by.forward.likely)?;
        let high = case(&mut self.high, self.blow_by.forward.high)?;
        let deepest = self.deepest(at).map_err(|error| of_ventilation(&error))?;
        let (pressure_limit, limit, state) =
            self.field.limits.judge(self.under_load, self.wide_open, high.gauge, deepest);
        Ok(MapState { likely, high, deepest, pressure_limit, limit, state })
    }

    /// The deeper of the low and the likely blow-by on balance, as a duty has it. With a way in, less gas stands at less
    /// pressure and the low one tells; along a valve's own curve it may be the other.
    fn deepest(&mut self, at: impl Fn(MassRate) -> Boundary) -> Result<GaugePressure, VentilationError> {
        let BlowBy { forward, net, .. } = self.blow_by;
        let [low, likely, low_down, likely_down] = &mut self.deep;
        let deeper = |one: &mut Follower<'_>, other: Option<&mut Follower<'_>>, flow: [MassRate; 2]| {
            let first = one.at(&at(flow[0]))?.gauge;
            let Some(other) = other else { return Ok(first) };
            let second = other.at(&at(flow[1]))?.gauge;
            Ok(if second < first { second } else { first })
        };
        let lets_in = self.field.ventilation.lets_air_in();
        if lets_in || net.low.base() > 0.0 {
            match deeper(low, (!lets_in).then_some(likely), [net.low, net.likely]) {
                Err(VentilationError::Network(NetworkError::DrawnEmpty { .. })) => {}
                found => return found,
            }
        }
        // No more comes in however deep it gets: the balance has no steady state, what passes down alone has one.
        deeper(low_down, Some(likely_down), [forward.low, forward.likely])
    }
}

fn of_ventilation(error: &VentilationError) -> Unsolved {
    use NetworkError as N;
    let reason = error.to_string();
    match error {
        VentilationError::OutOfRange(_)
        | VentilationError::Part(_)
        | VentilationError::Network(N::OutOfRange(_) | N::Element { .. }) => Unsolved::OutOfRange(reason),
        VentilationError::Missing { .. }
        | VentilationError::Network(
            N::NoExit { .. } | N::BeyondReach { .. } | N::DrawnEmpty { .. } | N::NoBalance { .. },
        ) => Unsolved::NoWayOut(reason),
        _ => Unsolved::NotFound(reason),
    }
}

/// The map of a checked project.
pub(in crate::study) fn map(project: &Project, grid: &MapGrid, variant: &Variant) -> Result<Map, Problems> {
    check(grid)?;
    throttled(project)?;
    let changed = variant::project(project, variant)?;
    let project = changed.as_ref().unwrap_or(project);
    let context = Context::new(project, &mut Silent)?;
    let field = Field::of(&context, variant)?;
    let rows: Vec<_> = (0..grid.manifold.points).into_par_iter().map(|row| field.row(grid, row)).collect();
    let marks = Duty::ALL.into_iter().map(|duty| field.mark(duty)).collect::<Result<_, _>>()?;
    let mut map = Map {
        variant: variant.clone(),
        grid: *grid,
        cells: rows.into_iter().flatten().collect(),
        marks,
        load_from: field.limits.load_from,
        depression: field.limits.depression,
        stop: crankcase::stop(&context),
        turns: Default::default(),
        limits: Default::default(),
        depths: Vec::new(),
    };
    map.draw_lines();
    Ok(map)
}

/// Two maps over one grid.
pub(in crate::study) fn compare(project: &Project, grid: &MapGrid, other: &Variant) -> Result<MapComparison, Problems> {
    Ok(MapComparison { present: map(project, grid, &Variant::Present)?, other: map(project, grid, other)? })
}
