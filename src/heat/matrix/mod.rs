//! The radiator from its core: tubes and fins measured with a rule, the conductance from published correlations.
//!
//! `geometry` says what a core may be and what follows from its sizes, `air` is the side of the fins, `duct` the flow in a
//! tube or in a plain fin passage; here the two sides and the wall are put in series and made a [`Radiator`].

mod air;
mod duct;
mod geometry;

pub use air::{LOUVRE_REYNOLDS, louvred_j_factor};
pub(crate) use duct::nusselt_base;
pub use duct::{ASPECT, LAMINAR_END, TURBULENT_FROM, duct_nusselt, fin_efficiency, laminar_nusselt};
pub use geometry::{CONDUCTIVITY, Fin, LOUVRE_ANGLE, LOUVRE_LENGTH, LOUVRE_PITCH, Louvres, Matrix};

use super::radiator::{COOLANT_FLOW, FRONTAL_AREA, REFERENCE_FLOW, REFERENCE_VELOCITY};
use super::{HeatError, Radiator, ReferenceCoolant, Tubes};
use crate::fluid::{Mix, air as fluid_air};
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, Length, Ratio, ThermalConductance, ThermodynamicTemperature, Velocity, VolumeRate};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::{DEFINITION, heat as source};
use geometry::Sizes;

/// Factors on a correlation.
pub const CORRELATION: Range =
    Range::new("true heat transfer over that of the correlation", Kind::Number, 0.3, 2.0, "0.85 to 1.15 is usual");
/// Allowances for fouling and bond.
pub const FOULING: Range = Range::new(
    "further resistance of scale, dust and the fins' bond",
    Kind::Share,
    0.0,
    2.0,
    "a share of the clean core's resistance, 0 to 15 % is usual",
);

/// The point at which a core's conductance is reckoned; it becomes the reference point of the [`Radiator`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MatrixPoint {
    /// Air velocity at the face.
    pub face_velocity: Velocity,
    /// Air temperature at the face.
    pub air_temperature: ThermodynamicTemperature,
    /// Pressure of the air.
    pub air_pressure: AbsolutePressure,
    /// Coolant flow through all tubes.
    pub coolant_flow: VolumeRate,
    /// The coolant.
    pub mix: Mix,
    /// Its temperature.
    pub coolant_temperature: ThermodynamicTemperature,
}

/// How far the true core may lie from the correlations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MatrixDoubt {
    /// True heat transfer of the air side over that of the correlation.
    pub air: Estimate<Ratio>,
    /// The same of the coolant side.
    pub coolant: Estimate<Ratio>,
    /// Further resistance of scale, dust and the fins' bond, as a share of the clean core's.
    pub fouling: Estimate<Ratio>,
}

/// What a core does at a point.
#[derive(Clone, Debug, PartialEq)]
pub struct MatrixHeat {
    /// Conductance.
    pub conductance: Estimate<ThermalConductance>,
    /// The radiator of the heat balance at the low, the likely and the high conductance, referred to the point.
    pub radiators: [Radiator; 3],
    /// Share of the thermal resistance on the air side.
    pub air_share: Ratio,
    /// Exponent of the air's mass flow in the air side's conductance, over the octave below the point.
    pub air_exponent: Ratio,
    /// Reynolds number of the air: of the louvre pitch, or of the passage between plain fins.
    pub air_reynolds: Ratio,
    /// Reynolds number of the coolant in a tube.
    pub tube_reynolds: Ratio,
    /// Efficiency of the fins.
    pub fin_efficiency: Ratio,
    /// Surface on the air side, fins and tubes.
    pub air_surface: Area,
    /// What weakens the answer.
    pub notes: Vec<Note>,
}

/// The coolant's side and the wall, in SI numbers.
struct Inside {
    conductance: f64,
    wall: f64,
    reynolds: f64,
}

impl Matrix {
    /// Conductance of the core at a point: UA = 1/[(1/(η₀·h_a·A_a) + δ/(k·A_w) + 1/(h_c·A_c))·(1 + f)].
    ///
    /// Louvred fins by Chang and Wang (1997), plain fins and tubes as ducts (laminar: Shah and London with Stephan's
    /// entrance; turbulent: Gnielinski; straight in the Reynolds number from 2300 to 4000). One pass of the coolant;
    /// as many columns of fins as tubes side by side.
    ///
    /// # Errors
    /// A size, flow, velocity or temperature out of range; sizes that do not fit each other; louvres whose Reynolds
    /// number lies outside 100 to 3000.
    pub fn conductance(
        &self,
        point: &MatrixPoint,
        doubt: &MatrixDoubt,
        scribe: &mut impl Scribe,
    ) -> Result<MatrixHeat, HeatError> {
        let sizes = self.sizes()?;
        FRONTAL_AREA.check(self.face())?;
        REFERENCE_VELOCITY.check(point.face_velocity)?;
        REFERENCE_FLOW.check(point.coolant_flow)?;
        for factor in [doubt.air, doubt.coolant] {
            for end in [factor.low, factor.likely, factor.high] {
                CORRELATION.check(end)?;
            }
        }
        for end in [doubt.fouling.low, doubt.fouling.likely, doubt.fouling.high] {
            FOULING.check(end)?;
        }
        sizes.write(self, scribe);
        let outside = air::side(self, &sizes, point, 1.0, scribe)?;
        let inside = self.inside(&sizes, point, scribe)?;
        let density = fluid_air::density(point.air_pressure, point.air_temperature, &mut Silent)?;
        // Over the octave below the point, where a car's air mostly is; where the louvres' range ends in it, above.
        let halved =
            air::side(self, &sizes, point, 0.5, &mut Silent).map(|side| outside.conductance / side.conductance);
        let ratio = match halved {
            Ok(ratio) => ratio,
            Err(_) => air::side(self, &sizes, point, 2.0, &mut Silent)?.conductance / outside.conductance,
        };
        let exponent = ratio.log2();
        let resistance = |air: Ratio, coolant: Ratio, fouling: Ratio| {
            let air_side = 1.0 / (outside.conductance * air.base());
            let rest = inside.wall + 1.0 / (inside.conductance * coolant.base());
            (air_side / (air_side + rest), 1.0 / ((air_side + rest) * (1.0 + fouling.base())))
        };
        let [low, likely, high] = [
            resistance(doubt.air.low, doubt.coolant.low, doubt.fouling.high),
            resistance(doubt.air.likely, doubt.coolant.likely, doubt.fouling.likely),
            resistance(doubt.air.high, doubt.coolant.high, doubt.fouling.low),
        ];
        let radiator = |(share, conductance): (f64, f64)| Radiator {
            ua_reference: ThermalConductance::from_base(conductance),
            reference_face_velocity: point.face_velocity,
            reference_air_density: density,
            reference_coolant_flow: point.coolant_flow,
            frontal_area: self.face(),
            air_side_resistance_share: Ratio::from_base(share),
            air_side_exponent: Ratio::from_base(exponent),
            reference_coolant: Some(ReferenceCoolant { mix: point.mix, temperature: point.coolant_temperature }),
            tubes: Some(Tubes {
                flow_area: Area::from_base(sizes.flow_area),
                hydraulic_diameter: Length::from_base(sizes.tube_diameter),
                aspect: Ratio::from_base(sizes.tube_aspect),
                length: self.tube_length,
            }),
        };
        let radiators = [low, likely, high].map(radiator);
        for radiator in &radiators {
            radiator.check()?;
        }
        let conductance = Estimate {
            low: radiators[0].ua_reference,
            likely: radiators[1].ua_reference,
            high: radiators[2].ua_reference,
        };
        scribe.step(|| {
            Step::new("Air's share of the resistance", "r", "r = R_a/(R_a + R_w + R_c)", &DEFINITION)
                .with_amount("1/R_a", Amount::new(outside.conductance, Kind::HeatConductance))
                .with_amount("1/R_c", Amount::new(inside.conductance, Kind::HeatConductance))
                .gives_amount(Amount::new(likely.0, Kind::Share))
        });
        scribe.step(|| {
            Step::new("Conductance of the core", "UA₀", "UA₀ = 1/[(R_a + R_w + R_c)·(1 + f)]", &source::CORE_DOUBT)
                .with_amount("f", Amount::of_kind(doubt.fouling.likely, Kind::Share))
                .gives(conductance.likely)
        });
        let mut notes = self.outside_tests();
        notes.extend(tube_note(inside.reynolds));
        notes.extend(passage_note(&self.fin, outside.reynolds));
        Ok(MatrixHeat {
            conductance,
            radiators,
            air_share: Ratio::from_base(likely.0),
            air_exponent: Ratio::from_base(exponent),
            air_reynolds: Ratio::from_base(outside.reynolds),
            tube_reynolds: Ratio::from_base(inside.reynolds),
            fin_efficiency: Ratio::from_base(outside.efficiency),
            air_surface: Area::from_base(sizes.air_surface()),
            notes,
        })
    }

    fn inside(&self, sizes: &Sizes, point: &MatrixPoint, scribe: &mut impl Scribe) -> Result<Inside, HeatError> {
        let flow = COOLANT_FLOW.check(point.coolant_flow)?.base();
        let at = point.coolant_temperature;
        let density = point.mix.density(at, scribe)?.base();
        let specific_heat = point.mix.specific_heat(at, scribe)?.base();
        let viscosity = point.mix.viscosity(at, scribe)?.base();
        let conductivity = point.mix.conductivity(at, scribe)?.base();
        let velocity = flow / sizes.flow_area;
        let reynolds = density * velocity * sizes.tube_diameter / viscosity;
        scribe.step(|| {
            Step::new("Reynolds number of the coolant in a tube", "Re_c", "Re_c = ρ·V̇·D/(A_f·μ)", &DEFINITION)
                .with_amount("V̇", Amount::of_kind(point.coolant_flow, Kind::CoolantFlow))
                .with_amount("D", Amount::new(sizes.tube_diameter, Kind::SmallLength))
                .with_amount("A_f", Amount::new(sizes.flow_area, Kind::SmallArea))
                .with_amount("μ", Amount::new(viscosity, Kind::Viscosity))
                .gives_amount(Amount::number(reynolds))
        });
        let nusselt = duct_nusselt(
            Ratio::from_base(reynolds),
            Ratio::from_base(specific_heat * viscosity / conductivity),
            Ratio::from_base(sizes.tube_aspect),
            Ratio::from_base(self.tube_length.base() / sizes.tube_diameter),
            scribe,
        )?
        .base();
        let transfer = nusselt * conductivity / sizes.tube_diameter;
        let conductance = transfer * sizes.wet_surface;
        scribe.step(|| {
            Step::new("Conductance of the coolant's side", "1/R_c", "1/R_c = h_c·A_c, h_c = Nu·k/D", &DEFINITION)
                .with_amount("h_c", Amount::new(transfer, Kind::HeatTransfer))
                .with_amount("A_c", Amount::new(sizes.wet_surface, Kind::Area))
                .gives_amount(Amount::new(conductance, Kind::HeatConductance))
        });
        let wall = self.tube_wall.base() / (self.tube_conductivity.base() * sizes.wet_surface);
        Ok(Inside { conductance, wall, reynolds })
    }
}

/// What a flow in the tubes that is not safely turbulent means.
fn tube_note(reynolds: f64) -> Option<Note> {
    if reynolds >= TURBULENT_FROM {
        return None;
    }
    let text = if reynolds < LAMINAR_END {
        format!(
            "At the core's reference point the Reynolds number in the tubes is {reynolds:.0}: the flow is laminar and the \
             coolant's side holds back much of the heat. More flow helps little until it turns turbulent."
        )
    } else {
        format!(
            "At the core's reference point the Reynolds number in the tubes is {reynolds:.0}, between laminar and turbulent \
             ({LAMINAR_END:.0} to {TURBULENT_FROM:.0}): the coolant's side is read off a straight line between the two."
        )
    };
    Some(Note::new("radiator-core-tubes-not-turbulent", Weight::Weak, text))
}

/// What a flow between plain fins that turns turbulent means.
fn passage_note(fin: &Fin, reynolds: f64) -> Option<Note> {
    let turns = *fin == Fin::Plain && (LAMINAR_END..2.0 * TURBULENT_FROM).contains(&reynolds);
    turns.then(|| {
        let text = format!(
            "At the core's reference point the Reynolds number of the air between the fins is {reynolds:.0}, where the flow \
             turns from laminar to turbulent at or somewhat below it: at other air speeds the radiator is less surely known."
        );
        Note::new("radiator-core-air-turns-turbulent", Weight::Weak, text)
    })
}
