//! The radiator: how much heat it carries, and its conductance from one measurement.

use super::exchanger::crossflow_base;
use super::{HeatError, core};
use crate::fluid::{self, Mix};
use crate::note::{Note, Weight};
use crate::numeric::bracketed_root;
use crate::quantity::si::{
    Area, Length, MassDensity, Power, Ratio, ThermalConductance, ThermodynamicTemperature, Velocity, VolumeRate,
};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::{DEFINITION, heat as source};

/// Conductances.
pub const CONDUCTANCE: Range =
    Range::new("radiator conductance", Kind::HeatConductance, 1.0, 1e5, "1150 W/K for a 2.0 L four, 2000 W/K for a V8");
/// Face velocities.
pub const FACE_VELOCITY: Range =
    Range::new("face velocity", Kind::GasSpeed, 0.0, 150.0, "2 to 10 m/s is usual at the radiator");
/// Face velocities a reference may have.
pub const REFERENCE_VELOCITY: Range = Range::new(
    "face velocity of the radiator's reference point",
    Kind::GasSpeed,
    0.1,
    150.0,
    "give the face velocity at which the conductance is known, such as 5 m/s",
);
/// Coolant flows through the radiator.
pub const COOLANT_FLOW: Range =
    Range::new("coolant flow through the radiator", Kind::CoolantFlow, 0.0, 0.1, "0.3 to 3 L/s is usual");
/// Coolant flows a reference may have.
pub const REFERENCE_FLOW: Range = Range::new(
    "coolant flow of the radiator's reference point",
    Kind::CoolantFlow,
    1e-6,
    0.1,
    "give the flow at which the conductance is known, such as 2 L/s",
);
/// Frontal areas.
pub const FRONTAL_AREA: Range = Range::new(
    "radiator frontal area",
    Kind::Area,
    1e-3,
    5.0,
    "width times height of the core, 0.2 to 0.35 m² is usual",
);
/// Shares of the resistance on the air side.
pub const AIR_SHARE: Range =
    Range::new("air-side share of the radiator's resistance", Kind::Share, 0.0, 1.0, "0.7 to 0.9 is usual");
/// Exponents of the air's mass flow; above 0.8 where the flow between plain fins turns turbulent.
pub const AIR_EXPONENT: Range = Range::new(
    "exponent of the air's mass flow in the radiator's conductance",
    Kind::Number,
    0.0,
    2.0,
    "0.3 to 0.6 is usual",
);
/// Densities of the reference air.
pub const REFERENCE_DENSITY: Range = Range::new(
    "air density of the radiator's reference point",
    Kind::Density,
    0.3,
    2.0,
    "1.15 kg/m³ at 30 °C and sea level",
);
const TUBE_AREA: Range =
    Range::new("flow area of the tubes", Kind::SmallArea, 1e-6, 0.1, "add up all tubes in parallel");
const TUBE_DIAMETER: Range = Range::new(
    "hydraulic diameter of the tubes",
    Kind::SmallLength,
    1e-4,
    0.05,
    "4 × section over wetted edge, about 3 mm",
);
const TUBE_LENGTH: Range =
    Range::new("length of the tubes", Kind::Length, 0.02, 5.0, "from tank to tank, 0.3 to 0.7 m is usual");
/// Below this Reynolds number the flow in the tubes is not safely turbulent.
const TURBULENT: f64 = 3000.0;

/// The tubes. With the reference coolant known too, the coolant's side follows the laws of a duct from laminar to turbulent
/// ([`super::matrix::duct_nusselt`]); else they only tell whether the flow is turbulent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tubes {
    /// Section of all tubes in parallel.
    pub flow_area: Area,
    /// Hydraulic diameter of one tube.
    pub hydraulic_diameter: Length,
    /// Inside thickness of a tube over its inside width.
    pub aspect: Ratio,
    /// Length of a tube.
    pub length: Length,
}

/// The coolant with which the reference conductance is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferenceCoolant {
    /// What it is.
    pub mix: Mix,
    /// Its temperature.
    pub temperature: ThermodynamicTemperature,
}

/// A cross-flow radiator by its conductance at a reference point.
///
/// UA = UA₀/[r·(ṁ_a0/ṁ_a)^n + (1 − r)·(V̇₀/V̇)^0.8·f], where f is 1 when the conductance is known for the coolant in
/// use and the ratio of the property group k^0.6·ρ^0.8·cp^0.4·μ^−0.4 (reference over in use) else. Where tubes and
/// reference coolant are known (Nu₀·k₀)/(Nu·k) stands for (V̇₀/V̇)^0.8·f, with Nu of the duct.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Radiator {
    /// Conductance at the reference point, UA₀.
    pub ua_reference: ThermalConductance,
    /// Face velocity there.
    pub reference_face_velocity: Velocity,
    /// Density of the air there; 1.15 kg/m³ is air at 34 °C and sea level.
    pub reference_air_density: MassDensity,
    /// Coolant flow there.
    pub reference_coolant_flow: VolumeRate,
    /// Width times height of the core.
    pub frontal_area: Area,
    /// Share r of the thermal resistance on the air side there.
    pub air_side_resistance_share: Ratio,
    /// Exponent n of the air's mass flow in the air side's conductance: 0.5, or less for plain fins.
    pub air_side_exponent: Ratio,
    /// The coolant there; `None` when the conductance is known for the coolant in use.
    pub reference_coolant: Option<ReferenceCoolant>,
    /// The tubes, if known.
    pub tubes: Option<Tubes>,
}

/// What meets the radiator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RadiatorDuty {
    /// The coolant.
    pub mix: Mix,
    /// Coolant temperature at the engine's outlet, which is the radiator's inlet.
    pub coolant_temperature: ThermodynamicTemperature,
    /// Coolant flow through the radiator.
    pub coolant_flow: VolumeRate,
    /// Air temperature at the radiator's inlet.
    pub air_temperature: ThermodynamicTemperature,
    /// Ambient pressure.
    pub air_pressure: AbsolutePressure,
    /// Air velocity at the radiator's face.
    pub face_velocity: Velocity,
}

/// What the radiator does.
#[derive(Clone, Debug, PartialEq)]
pub struct RadiatorHeat {
    /// Heat carried; negative when the air is warmer than the coolant.
    pub heat: Power,
    /// Conductance at this duty.
    pub conductance: ThermalConductance,
    /// Effectiveness.
    pub effectiveness: Ratio,
    /// Coolant temperature at the radiator's outlet; equals the inlet's without flow.
    pub coolant_return: ThermodynamicTemperature,
    /// Air temperature behind the radiator; equals the inlet's without air.
    pub air_outlet: ThermodynamicTemperature,
    /// Reynolds number in the tubes, if they are known.
    pub reynolds: Option<Ratio>,
    /// What weakens the answer.
    pub notes: Vec<Note>,
}

impl Radiator {
    /// Passes the radiator through if every figure lies in range.
    ///
    /// # Errors
    /// A figure out of range, or a reference coolant outside its liquid range.
    pub fn check(&self) -> Result<&Self, HeatError> {
        CONDUCTANCE.check(self.ua_reference)?;
        REFERENCE_VELOCITY.check(self.reference_face_velocity)?;
        REFERENCE_DENSITY.check(self.reference_air_density)?;
        REFERENCE_FLOW.check(self.reference_coolant_flow)?;
        FRONTAL_AREA.check(self.frontal_area)?;
        AIR_SHARE.check(self.air_side_resistance_share)?;
        AIR_EXPONENT.check(self.air_side_exponent)?;
        if let Some(tubes) = self.tubes {
            TUBE_AREA.check(tubes.flow_area)?;
            TUBE_DIAMETER.check(tubes.hydraulic_diameter)?;
            super::matrix::ASPECT.check(tubes.aspect)?;
            TUBE_LENGTH.check(tubes.length)?;
        }
        Ok(self)
    }

    /// Heat carried at a duty: Q = ε·C_min·(t_coolant − t_air).
    ///
    /// The coolant's properties are taken at its inlet temperature, −40 to 130 °C.
    ///
    /// # Errors
    /// A figure out of range, a coolant outside its liquid range.
    pub fn heat(&self, duty: &RadiatorDuty, scribe: &mut impl Scribe) -> Result<RadiatorHeat, HeatError> {
        let core = core::Core::new(self)?;
        COOLANT_FLOW.check(duty.coolant_flow)?;
        let air = core::Air::new(duty.air_temperature, duty.air_pressure, duty.face_velocity, scribe)?;
        let coolant = core.coolant(&duty.mix, duty.coolant_temperature, scribe)?;
        let flow = duty.coolant_flow.base();
        let carried = core.carried(&coolant, flow, &air);
        self.write(duty, &coolant, &carried, scribe);
        let (kelvin, air_kelvin) = (duty.coolant_temperature.base(), duty.air_temperature.base());
        let change = |capacity: f64| if capacity > 0.0 { carried.heat / capacity } else { 0.0 };
        let reynolds = self.reynolds(duty, coolant.density)?;
        let mut notes = Vec::new();
        // The laws of a duct know a flow that is not turbulent, the power of the flow does not.
        let power = coolant.tube.is_none() && flow > 0.0;
        if let Some(value) = reynolds.filter(|value| power && value.base() < TURBULENT) {
            notes.push(Note::new(
                "radiator-tubes-not-turbulent",
                Weight::Weak,
                format!(
                    "The Reynolds number in the radiator's tubes is {:.0}; below {TURBULENT:.0} the flow is not safely \
                     turbulent and the radiator carries less than reckoned.",
                    value.base()
                ),
            ));
        }
        Ok(RadiatorHeat {
            heat: Power::from_base(carried.heat),
            conductance: ThermalConductance::from_base(carried.conductance),
            effectiveness: Ratio::from_base(carried.effectiveness),
            coolant_return: ThermodynamicTemperature::from_base(kelvin - change(carried.coolant_rate)),
            air_outlet: ThermodynamicTemperature::from_base(air_kelvin + change(carried.air_rate)),
            reynolds,
            notes,
        })
    }

    fn reynolds(&self, duty: &RadiatorDuty, density: f64) -> Result<Option<Ratio>, HeatError> {
        let Some(tubes) = self.tubes else { return Ok(None) };
        let viscosity = duty.mix.viscosity(duty.coolant_temperature, &mut Silent)?.base();
        let velocity = duty.coolant_flow.base() / tubes.flow_area.base();
        Ok(Some(Ratio::from_base(density * velocity * tubes.hydraulic_diameter.base() / viscosity)))
    }

    fn write(&self, duty: &RadiatorDuty, coolant: &core::Coolant, carried: &core::Carried, scribe: &mut impl Scribe) {
        let rate = |base: f64| Amount::new(base, Kind::HeatConductance);
        scribe.step(|| {
            Step::new("Heat capacity rate of the air", "C_a", "C_a = ρ_a·v·A·cp_a", &DEFINITION)
                .with_amount("v", Amount::of_kind(duty.face_velocity, Kind::GasSpeed))
                .with_amount("A", Amount::of_kind(self.frontal_area, Kind::Area))
                .gives_amount(rate(carried.air_rate))
        });
        scribe.step(|| {
            Step::new("Heat capacity rate of the coolant", "C_c", "C_c = ρ·V̇·cp", &DEFINITION)
                .with_amount("ρ", Amount::new(coolant.density, Kind::Density))
                .with_amount("V̇", Amount::of_kind(duty.coolant_flow, Kind::CoolantFlow))
                .with_amount("cp", Amount::new(coolant.specific_heat, Kind::SpecificHeat))
                .gives_amount(rate(carried.coolant_rate))
        });
        let tube = coolant.tube.as_ref().filter(|_| carried.flow_ratio > 0.0);
        if let Some(tube) = tube {
            scribe.step(|| {
                let reynolds = tube.reynolds_per_flow * duty.coolant_flow.base();
                let laminar = reynolds <= super::matrix::LAMINAR_END;
                Step::new(
                    "Coolant-side resistance against the reference point",
                    "f",
                    "f = (Nu₀·k₀)/(Nu·k), Nu from Re = ρ·V̇·D/(A_f·μ), Pr and L/D",
                    if laminar { &source::LAMINAR_DUCT } else { &source::GNIELINSKI },
                )
                .with_number("Re", reynolds)
                .with_number("Pr", tube.prandtl)
                .gives_amount(Amount::number(carried.coolant_side))
            });
        } else if self.reference_coolant.is_some() {
            scribe.step(|| {
                Step::new(
                    "Coolant-side resistance against the reference coolant",
                    "f",
                    "f = (k₀/k)^0.6·(ρ₀/ρ)^0.8·(cp₀/cp)^0.4·(μ/μ₀)^0.4",
                    &source::DITTUS_BOELTER,
                )
                .gives_amount(Amount::number(coolant.resistance))
            });
        }
        scribe.step(|| {
            let (equation, factor) = match tube {
                Some(_) => ("UA = UA₀/[r·(ṁ_a0/ṁ_a)^n + (1 − r)·f]", carried.coolant_side),
                None => ("UA = UA₀/[r·(ṁ_a0/ṁ_a)^n + (1 − r)·(V̇₀/V̇)^0.8·f]", coolant.resistance),
            };
            let step = Step::new("Conductance of the radiator", "UA", equation, &source::RADIATOR_SCALING)
                .with("UA₀", self.ua_reference)
                .with_amount("r", Amount::of_kind(self.air_side_resistance_share, Kind::Share))
                .with_number("n", self.air_side_exponent.base())
                .with_number("ṁ_a/ṁ_a0", carried.air_ratio);
            let step = if tube.is_some() { step } else { step.with_number("V̇/V̇₀", carried.flow_ratio) };
            step.with_number("f", factor).gives_amount(rate(carried.conductance))
        });
        scribe.step(|| {
            Step::new(
                "Effectiveness, cross-flow, both sides unmixed",
                "ε",
                "ε = 1 − exp[(NTU^0.22/Cr)(exp(−Cr·NTU^0.78) − 1)]",
                &source::CROSSFLOW,
            )
            .with_number("NTU", carried.transfer_units)
            .with_number("Cr", carried.capacity_ratio)
            .gives_amount(Amount::number(carried.effectiveness))
        });
        scribe.step(|| {
            Step::new("Heat the radiator carries", "Q", "Q = ε·C_min·(t − t_air)", &source::CROSSFLOW)
                .with_number("ε", carried.effectiveness)
                .with_amount("C_min", rate(carried.air_rate.min(carried.coolant_rate)))
                .with("t", duty.coolant_temperature)
                .with("t_air", duty.air_temperature)
                .gives_amount(Amount::new(carried.heat, Kind::Power))
        });
    }

    /// The radiator that carries a measured heat at a measured duty; that duty becomes its reference point.
    ///
    /// Solves ε(NTU, Cr) = Q/(C_min·(t − t_air)) for NTU; UA₀ = NTU·C_min. Measure with the thermostat wide open.
    ///
    /// # Errors
    /// A figure out of range, coolant not warmer than air, or more heat than any radiator could carry.
    pub fn from_measured_point(
        frontal_area: Area,
        air_side_resistance_share: Ratio,
        duty: &RadiatorDuty,
        heat: Power,
        scribe: &mut impl Scribe,
    ) -> Result<Self, HeatError> {
        let area = FRONTAL_AREA.check(frontal_area)?.base();
        AIR_SHARE.check(air_side_resistance_share)?;
        REFERENCE_VELOCITY.check(duty.face_velocity)?;
        REFERENCE_FLOW.check(duty.coolant_flow)?;
        let wanted = super::warm_up::HEAT.check(heat)?.base();
        let air = core::Air::new(duty.air_temperature, duty.air_pressure, duty.face_velocity, scribe)?;
        let difference = duty.coolant_temperature.base() - duty.air_temperature.base();
        if difference <= 0.0 {
            return Err(HeatError::NotWarmer {
                what: "the measured coolant",
                than: "the air at the radiator",
                value: Amount::of(duty.coolant_temperature),
                other: Amount::of(duty.air_temperature),
            });
        }
        let density = duty.mix.density(duty.coolant_temperature, scribe)?.base();
        let specific_heat = duty.mix.specific_heat(duty.coolant_temperature, scribe)?.base();
        let air_rate = air.mass_flux * area * air.specific_heat;
        let coolant_rate = density * specific_heat * duty.coolant_flow.base();
        let (least, ratio) = (air_rate.min(coolant_rate), air_rate.min(coolant_rate) / air_rate.max(coolant_rate));
        let (smallest, largest) = (1e-6_f64, 100.0_f64);
        let most = least * difference * crossflow_base(largest, ratio);
        if wanted >= most {
            return Err(HeatError::ImpossibleMeasurement { heat, most: Power::from_base(most) });
        }
        let effectiveness = wanted / (least * difference);
        // In the logarithm of NTU, so that small and large radiators are found to the same relative digits.
        let excess = |log: f64| crossflow_base(log.exp(), ratio) - effectiveness;
        let root = bracketed_root(excess, smallest.ln(), largest.ln(), 1e-12)?;
        let conductance = ThermalConductance::from_base(root.at.exp() * least);
        scribe.step(|| {
            Step::new(
                "Conductance from the measured point",
                "UA₀",
                "ε(UA₀/C_min, Cr) = Q/(C_min·(t − t_air))",
                &source::CROSSFLOW,
            )
            .with("Q", heat)
            .with_amount("C_min", Amount::new(least, Kind::HeatConductance))
            .with_number("Cr", ratio)
            .with("t", duty.coolant_temperature)
            .with("t_air", duty.air_temperature)
            .gives(conductance)
        });
        let radiator = Self {
            ua_reference: conductance,
            reference_face_velocity: duty.face_velocity,
            reference_air_density: fluid::air::density(duty.air_pressure, duty.air_temperature, &mut Silent)?,
            reference_coolant_flow: duty.coolant_flow,
            frontal_area,
            air_side_resistance_share,
            air_side_exponent: super::defaults::air_side_exponent().likely(),
            reference_coolant: Some(ReferenceCoolant { mix: duty.mix, temperature: duty.coolant_temperature }),
            tubes: None,
        };
        radiator.check()?;
        Ok(radiator)
    }
}
