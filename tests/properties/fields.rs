//! Every input at both ends of its range: what the field allows, the physics behind it must not refuse.

use coldmark::crankcase::mixture::FuelSystem;
use coldmark::crankcase::oil::CanInside;
use coldmark::quantity::{Estimate, Measured};
use coldmark::study::{
    self, Bench, CanPlace, Choice, Count, CoverLayers, Duty, ElementKnowledge, EngineFuel, FanDrive, Field, FinKind,
    GasSource, Induction, InlineKind, Label, LeakTrial, LegEnd, LegInputs, LegKind, PortPlace, Project,
    RadiatorKnowledge, ShapeKind, Shroud,
};
use coldmark::study::{
    OilCooling, TankArrangement, ValveKind, VentKind, VentilationArrangement, Visitor, VolumeKnowledge,
};

/// Sets the quantity of one number to one end of its range, and remembers its name.
struct Push {
    sought: usize,
    high: bool,
    seen: usize,
    path: Vec<&'static str>,
    pushed: Option<String>,
}

impl Push {
    fn end(&mut self, field: &'static Field) -> Option<f64> {
        self.seen += 1;
        (self.seen - 1 == self.sought).then(|| {
            let path = self.path.iter().copied().chain([field.key]).collect::<Vec<_>>().join(".");
            self.pushed = Some(format!("{path} at its {} end", if self.high { "high" } else { "low" }));
            if self.high { field.range.high } else { field.range.low }
        })
    }
}

impl Visitor for Push {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.path.push(label.key);
        body(self);
        self.path.pop();
    }
    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        if let Some(end) = self.end(field) {
            *value = Q::from_base(end);
        }
    }
    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _: &'static str) {
        if let Some(end) = self.end(field) {
            *value = Some(Q::from_base(end));
        }
    }
    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _: Estimate<Q>) {
        if let Some(end) = self.end(field) {
            *value = Some(Estimate::exact(Q::from_base(end)));
        }
    }
    fn choice<C: Choice>(&mut self, _: &'static Label, _: &mut C) {}
    fn text(&mut self, _: &'static Label, _: &mut String) {}
    fn count(&mut self, _: &'static Count, _: &mut u32) {}
    fn switch(&mut self, _: &'static Label, _: &mut bool) {}
    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        if let Some(end) = self.end(field) {
            value.fill(Q::from_base(end));
        }
    }
    fn pairs<A: Measured, B: Measured>(
        &mut self,
        _: &'static Label,
        _: (&'static Field, &'static Field),
        _: &mut Vec<(A, B)>,
    ) {
    }
    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        self.path.push(label.key);
        if let Some(first) = value.first_mut() {
            item(first, self);
        }
        self.path.pop();
    }
}

/// Refusals that compare one input with others, which no range of a single field can know.
const TOGETHER: [&str; 9] = [
    // A boost against the altitude, and a reading of a meter against the leak at its point.
    "no one blower",
    "no gas leaks towards the crankcase",
    "so it ruled and not the radiator",
    // A power against speed, displacement and altitude.
    "brake mean effective pressure",
    "no radiator could carry",
    "above the air's",
    "cannot exceed the rated power",
    "leave room for coolant",
    // The engine breathes more on the hill than at full throttle.
    "depression of the air cleaner",
];

/// Projects that between them show every input.
fn projects() -> Vec<Project> {
    let base = Project::blank;
    let mut lying = base();
    lying.tank.shape = ShapeKind::LyingCylinder;
    lying.tank.vent = VentKind::Tube;
    lying.circuit.knowledge = VolumeKnowledge::BuiltUp;
    lying.radiator.knowledge = RadiatorKnowledge::MeasuredPoint;
    lying.ventilation.arrangement = VentilationArrangement::TwoBreathers;
    lying.ventilation.can.place = CanPlace::BreatherLine;
    lying.ventilation.can.volume = Some(Measured::from_base(1e-3));
    lying.ventilation.can.inside = CanInside::Mesh;
    lying.ventilation.can.mesh_depth = Some(Measured::from_base(0.05));
    lying.ventilation.can.in_both = true;
    lying.ventilation.element.knowledge = ElementKnowledge::Points;
    lying.cover_joint.known = true;
    lying.cover_joint.layers = CoverLayers::TwoGasketsAndSpacer;
    lying.cover_joint.screw_length = Measured::from_base(0.035);
    lying.cover_joint.trial = LeakTrial::Stopped;
    // Its fan stays off at the measured temperature's low end unless the car moves: it does.
    lying.radiator.fan.known = true;
    let mut boxed = base();
    boxed.radiator.knowledge = RadiatorKnowledge::Core;
    boxed.radiator.fan.known = true;
    boxed.radiator.fan.shroud = Shroud::None;
    boxed.tank.shape = ShapeKind::TaperedBox;
    boxed.tank.arrangement = TankArrangement::CatchOnly;
    boxed.ventilation.arrangement = VentilationArrangement::ClosedWithFreshAirLine;
    boxed.ventilation.valve.kind = ValveKind::FixedOrifice;
    boxed.ventilation.can.place = CanPlace::ValveLine;
    boxed.ventilation.can.drain.known = true;
    boxed.ventilation.valve_line.inline = InlineKind::Component;
    boxed.ventilation.source = GasSource::Valley;
    boxed.ventilation.crossover.known = true;
    let cylinders = boxed.engine.cylinders as usize;
    boxed.blow_by.leak_down = vec![Measured::from_base(0.1); cylinders];
    boxed.oil.cooling = OilCooling::ToCoolant;
    let mut header = base();
    header.oil.cooling = OilCooling::ToAir;
    header.heater.on = true;
    header.radiator.knowledge = RadiatorKnowledge::Core;
    header.radiator.core.fin = FinKind::Plain;
    header.radiator.fan.known = true;
    header.radiator.fan.drive = FanDrive::Belt;
    header.tank.arrangement = TankArrangement::HeaderTank;
    header.ventilation.arrangement = VentilationArrangement::BreatherOnly;
    header.ventilation.element.knowledge = ElementKnowledge::OnePoint;
    header.ventilation.breather.barb = Some(Measured::from_base(0.012));
    header.ventilation.breather.inline = InlineKind::CheckOutwards;
    header.ventilation.source = GasSource::Sump;
    header.ventilation.mesh.known = true;
    // The remaining kinds of valve, and a port.
    let valve = |kind| {
        let mut project = base();
        project.ventilation.valve.kind = kind;
        project.engine.mixture = FuelSystem::MassFlow;
        project
    };
    let mut bench = valve(ValveKind::Table);
    bench.ventilation.valve.bench.read = Bench::Orifice;
    let mut port = valve(ValveKind::Check);
    port.ventilation.valve.port.place = PortPlace::OneRunner;
    let kinds = [ValveKind::SpringPlunger, ValveKind::Sonic, ValveKind::Table].map(valve);
    // Its power is what boost makes, so that no pressure entered is too little for it.
    let mut boosted = base();
    boosted.engine.induction = Induction::Turbocharger;
    boosted.engine.charge_cooler = true;
    boosted.blow_by.rings.known = true;
    boosted.blow_by.rings.land_height = Some(Measured::from_base(4e-3));
    boosted.blow_by.metered.known = true;
    let mut diesel = base();
    diesel.engine.fuel = EngineFuel::Diesel;
    diesel.engine.compression_ratio = Measured::from_base(19.0);
    diesel.duty.points[Duty::FullThrottle.index()].power = Measured::from_base(110e3);
    diesel.blow_by.metered.known = true;
    [base(), lying, boxed, header, boosted, diesel, bench, port].into_iter().chain(kinds).collect()
}

#[test]
fn no_field_allows_what_the_physics_refuses() {
    let mut refused = Vec::new();
    let mut walked = std::collections::BTreeSet::new();
    for project in projects() {
        study::answer(&project).unwrap();
        for sought in 0.. {
            let mut end_of_walk = true;
            for high in [false, true] {
                let mut pushed = project.clone();
                let mut push = Push { sought, high, seen: 0, path: Vec::new(), pushed: None };
                pushed.visit(&mut push);
                let Some(name) = push.pushed else { continue };
                end_of_walk = false;
                if !walked.insert(name.clone()) {
                    continue;
                }
                // Inputs that contradict each other are told apart before any physics.
                if pushed.check().is_err() {
                    continue;
                }
                if let Err(problems) = study::answer(&pushed) {
                    let problems = problems.to_string();
                    if !TOGETHER.iter().any(|words| problems.contains(words)) {
                        refused.push(format!("{name}: {problems}"));
                    }
                }
            }
            if end_of_walk {
                break;
            }
        }
    }
    assert!(walked.len() > 180, "{} ends walked", walked.len());
    assert!(refused.is_empty(), "{} refused:\n{}", refused.len(), refused.join("\n"));
}

/// Refusals of a day that compare what is asked of the car with its engine and its gears.
const ROAD: [&str; 4] =
    ["in the best gear", "even in top gear", "one stop with its way", "which the engine must reach"];

#[test]
fn no_field_of_car_and_day_allows_what_the_road_refuses() {
    let legs = LegKind::ALL.iter().flat_map(|kind| {
        LegEnd::ALL.iter().map(|until| LegInputs { kind: *kind, until: *until, ..LegInputs::default() })
    });
    let (mut refused, mut walked) = (Vec::new(), std::collections::BTreeSet::new());
    for leg in legs {
        let mut project = Project::blank();
        project.day.legs = vec![leg];
        project.car.gears = vec![Measured::from_base(3.0), Measured::from_base(9.0)];
        study::course(&project).unwrap();
        for sought in 0.. {
            let ends = [false, true].map(|high| {
                let mut pushed = project.clone();
                let mut push = Push { sought, high, seen: 0, path: Vec::new(), pushed: None };
                pushed.visit(&mut push);
                (pushed, push.pushed)
            });
            if ends.iter().all(|(_, name)| name.is_none()) {
                break;
            }
            for (pushed, name) in ends {
                let Some(name) = name.filter(|name| name.starts_with("car.") || name.starts_with("day.")) else {
                    continue;
                };
                walked.insert(name.clone());
                // Inputs that contradict each other are told apart before any physics.
                if pushed.check().is_err() {
                    continue;
                }
                if let Err(problems) = study::course(&pushed) {
                    let problems = problems.to_string();
                    if !ROAD.iter().any(|words| problems.contains(words)) {
                        refused.push(format!("{name}: {problems}"));
                    }
                }
            }
        }
    }
    assert!(walked.len() >= 40, "{} ends walked", walked.len());
    assert!(refused.is_empty(), "{} refused:\n{}", refused.len(), refused.join("\n"));
}
