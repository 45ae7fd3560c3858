//! A PCV valve by the table its owner measured: flow against depression.

use std::sync::Arc;

use super::defaults::seat_leak;
use super::orifice::{Orifice, through};
use super::response::LINEAR_BELOW;
use super::{Ends, FlowError, Psi, Response};
use crate::crankcase::flow_function::GAS_CONSTANT;
use crate::numeric::{MonotoneCubic, TableError};
use crate::quantity::si::{Area, MassRate, Pressure, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::FLOW_TABLE;

pub(super) const BENCH_PRESSURE: Range = Range::new(
    "pressure ahead of the valve on the bench",
    Kind::AbsolutePressure,
    5.0e4,
    2.0e5,
    "the ambient pressure where the valve was measured",
);

/// A valve by its table. Between the points a monotone cubic, from zero flow at zero depression; beyond the last point
/// nothing. The table is turned into an effective area at each depression, so that it holds at another pressure and
/// temperature than those of the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct TableValve {
    curve: Arc<MonotoneCubic>,
    bench_pressure: f64,
    bench_root_rt: f64,
    last: f64,
    /// Effective area against the flow.
    leak: f64,
}

impl TableValve {
    /// From depressions with the mass flow at each, measured with air at the given pressure and temperature ahead of
    /// the valve. Zero flow at zero depression is added.
    ///
    /// # Errors
    /// When the depressions do not rise, reach the bench's pressure, or a flow is not above zero.
    pub fn new(
        points: &[(Pressure, MassRate)],
        bench_pressure: AbsolutePressure,
        bench_temperature: ThermodynamicTemperature,
    ) -> Result<Self, FlowError> {
        let bench = BENCH_PRESSURE.check(bench_pressure)?.base();
        let temperature = super::END_TEMPERATURE.check(bench_temperature)?.base();
        let mut rows = vec![(0.0, 0.0)];
        for (i, (depression, flow)) in points.iter().enumerate() {
            let (depression, flow) = (depression.base(), flow.base());
            if depression == 0.0 && flow == 0.0 {
                continue;
            }
            if flow <= 0.0 {
                return Err(FlowError::TableFlow { row: i + 1 });
            }
            if depression >= bench {
                return Err(TableError::Outside { at: depression, low: 0.0, high: bench }.into());
            }
            rows.push((depression, flow));
        }
        let curve = MonotoneCubic::new(&rows)?;
        let last = curve.ends().1;
        Ok(Self {
            curve: Arc::new(curve),
            bench_pressure: bench,
            bench_root_rt: (GAS_CONSTANT * temperature).sqrt(),
            last,
            leak: seat_leak().likely().base(),
        })
    }

    /// The same valve with another opening against the flow; never tighter than the usual leak of a closed seat, so that
    /// nothing behind it is cut off.
    ///
    /// # Errors
    /// When the area is outside 0 to 1000 mm².
    pub fn with_backfire_area(self, area: Area) -> Result<Self, FlowError> {
        let leak = super::plunger::BACK.check(area)?.base().max(seat_leak().likely().base());
        Ok(Self { leak, ..self })
    }

    /// The last depression of the table.
    #[must_use]
    pub fn last_depression(&self) -> Pressure {
        Pressure::from_base(self.last)
    }

    /// The widest opening at any point of the table, as an effective area for a ratio of specific heats of 1.4.
    #[must_use]
    pub fn widest_opening(&self) -> Area {
        let psi = Psi::new(crate::fluid::crankcase_gas::ventilation_heat_ratio().likely().base());
        let widest = (1..=100).map(|i| self.area(f64::from(i) / 100.0 * self.last, &psi)).fold(0.0, f64::max);
        Area::from_base(widest)
    }

    /// The last depression, Pa.
    pub(super) const fn last(&self) -> f64 {
        self.last
    }

    /// Refuses a depression in Pa beyond the table.
    pub(crate) fn covers(&self, depression: f64) -> Result<(), FlowError> {
        if depression <= self.last * (1.0 + 1e-12) {
            Ok(())
        } else {
            Err(FlowError::BeyondTable {
                depression: Pressure::from_base(depression),
                last: Pressure::from_base(self.last),
            })
        }
    }

    /// The effective area in m² at a depression in Pa, by the nearest end beyond the ends.
    pub(super) fn area(&self, depression: f64, psi: &Psi) -> f64 {
        let at = depression.clamp(LINEAR_BELOW.min(self.last), self.last);
        let flow = self.curve.at(at).unwrap_or(0.0);
        let per_area = self.bench_pressure * psi.at(1.0 - at / self.bench_pressure) / self.bench_root_rt;
        flow / per_area
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, psi: &Psi, opening: f64, scribe: &mut impl Scribe) -> Response {
        let Ends { first, second, warmth } = ends;
        if first >= second {
            scribe.step(|| {
                Step::new(
                    "opening of the valve by its table",
                    "C_d A",
                    "ṁ_table(d) √(R T_b)/(p_b Ψ(1 − d/p_b)) with the bench's p_b and T_b",
                    &FLOW_TABLE,
                )
                .with_amount("d", Amount::new(first - second, Kind::PressureDifference))
                .with("p_b", AbsolutePressure::from_base(self.bench_pressure))
                .gives(Area::from_base(opening))
            });
            through(opening, first, second, &warmth[0], psi, scribe)
        } else {
            let leak = Orifice { effective_area: Area::from_base(self.leak) };
            leak.response(ends, psi, scribe)
        }
    }
}
