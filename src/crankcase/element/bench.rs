//! A bench where the valve stands in series with a known orifice: two pressures make a flow.

use super::orifice::Orifice;
use super::table::BENCH_PRESSURE;
use super::{END_TEMPERATURE, FlowError, Psi, Warmth};
use crate::quantity::si::{Area, Length, MassRate, Pressure, Ratio, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::{ISENTROPIC_ORIFICE, SERIES_BENCH};

/// The bench: air of the room goes through the known orifice, then through the valve, to a vacuum pump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OrificeBench {
    /// Bore of the known orifice.
    pub bore: Length,
    /// Its discharge coefficient.
    pub discharge: Ratio,
    /// Pressure of the room.
    pub pressure: AbsolutePressure,
    /// Temperature of the air, which the orifice does not change.
    pub temperature: ThermodynamicTemperature,
}

/// What one row of the bench comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BenchFlow {
    /// Depression across the valve, as read.
    pub depression: Pressure,
    /// Mass flow through orifice and valve.
    pub flow: MassRate,
    /// Effective area of the valve at this depression.
    pub area: Area,
    /// Flow the valve would pass at this depression with the full pressure of the room ahead of it: what a table of
    /// flow against depression holds.
    pub referred: MassRate,
}

impl OrificeBench {
    /// The flow of each row of depression across the valve and pressure drop across the known orifice.
    ///
    /// `ṁ = C_d A_o p_b Ψ(1 − Δp_o/p_b)/√(R T_b)`; the valve then sees `p_b − Δp_o` ahead of it, so its effective area is
    /// `C_d A = ṁ √(R T_b)/((p_b − Δp_o) Ψ(1 − d/(p_b − Δp_o)))`, and the flow referred to the room's pressure
    /// `C_d A p_b Ψ(1 − d/p_b)/√(R T_b)`. A row of two zeros is passed over.
    ///
    /// # Errors
    /// When orifice or room is outside its range, and naming the row whose drop is not above zero, whose depression is
    /// not, or whose two pressures together reach the room's.
    pub fn flows(&self, rows: &[(Pressure, Pressure)], scribe: &mut impl Scribe) -> Result<Vec<BenchFlow>, FlowError> {
        let orifice = Orifice::of_bore(self.bore, self.discharge)?.effective_area;
        let room = BENCH_PRESSURE.check(self.pressure)?.base();
        let warmth = Warmth::of(END_TEMPERATURE.check(self.temperature)?.base());
        let psi = Psi::new(crate::fluid::crankcase_gas::ventilation_heat_ratio().likely().base());
        let mut flows = Vec::with_capacity(rows.len());
        for (i, (depression, drop)) in rows.iter().enumerate() {
            let (d, o) = (depression.base(), drop.base());
            if d == 0.0 && o == 0.0 {
                continue;
            }
            let ahead = room - o;
            let flow = orifice.base() * room * psi.at(1.0 - o / room) / warmth.root_rt;
            let area = flow * warmth.root_rt / (ahead * psi.at(1.0 - d / ahead));
            // A pressure too small to be told from none leaves nothing to divide by.
            let readable = d > 0.0 && o > 0.0 && d + o < room && flow > 0.0 && area.is_finite();
            if !readable {
                let (depression, drop) = (*depression, *drop);
                return Err(FlowError::BenchRow { row: i + 1, depression, drop, room: Pressure::from_base(room) });
            }
            let referred = area * room * psi.at(1.0 - d / room) / warmth.root_rt;
            let row = BenchFlow {
                depression: *depression,
                flow: MassRate::from_base(flow),
                area: Area::from_base(area),
                referred: MassRate::from_base(referred),
            };
            self.explain(orifice, *drop, &row, scribe);
            flows.push(row);
        }
        Ok(flows)
    }

    fn explain(&self, orifice: Area, drop: Pressure, row: &BenchFlow, scribe: &mut impl Scribe) {
        let in_kilopascals = |pressure| Amount::of_kind(pressure, Kind::PressureDifference);
        scribe.step(|| {
            Step::new(
                "flow through the known orifice and the valve",
                "ṁ",
                "C_d A_o p_b Ψ(1 − Δp_o/p_b)/√(R T_b)",
                &ISENTROPIC_ORIFICE,
            )
            .with_amount("C_d A_o", Amount::of_kind(orifice, Kind::SmallArea))
            .with("p_b", self.pressure)
            .with_amount("Δp_o", in_kilopascals(drop))
            .with("T_b", self.temperature)
            .gives(row.flow)
        });
        scribe.step(|| {
            Step::new(
                "opening of the valve on the bench",
                "C_d A",
                "ṁ √(R T_b)/((p_b − Δp_o) Ψ(1 − d/(p_b − Δp_o)))",
                &SERIES_BENCH,
            )
            .with_amount("d", in_kilopascals(row.depression))
            .with_amount("Δp_o", in_kilopascals(drop))
            .with("ṁ", row.flow)
            .gives_amount(Amount::of_kind(row.area, Kind::SmallArea))
        });
        scribe.step(|| {
            Step::new(
                "flow with the room's full pressure ahead of the valve",
                "ṁ_b",
                "C_d A p_b Ψ(1 − d/p_b)/√(R T_b)",
                &ISENTROPIC_ORIFICE,
            )
            .with_amount("C_d A", Amount::of_kind(row.area, Kind::SmallArea))
            .with_amount("d", in_kilopascals(row.depression))
            .gives(row.referred)
        });
    }
}
