//! A hole or a tube in the lid, and the gas that goes through it.

use super::{VentGas, VentLoad};
use crate::coolant::{CoolantError, defaults};
use crate::fluid::{air, water};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Length, MassRate, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::{HOLE_DISCHARGE, NOZZLE_FLOW, TUBE_FRICTION};
use std::f64::consts::PI;

const DIAMETER: Range = Range::new("diameter of the vent", Kind::Length, 0.1e-3, 0.1, "2 to 15 mm are usual");
const LENGTH: Range = Range::new("length of the vent tube", Kind::Distance, 0.0, 10.0, "measure along the tube");
pub(in crate::coolant) const COEFFICIENT: Range =
    Range::new("discharge coefficient", Kind::Number, 0.05, 1.0, "0.6 for a drilled hole, 0.8 for a rounded entrance");
const FLOW: Range = Range::new("flow through the vent", Kind::GasFlow, 0.0, 1.0, "a few grams per second at most");
const AMBIENT: Range =
    Range::new("ambient pressure", Kind::AbsolutePressure, 40e3, 110e3, "about 101 kPa at sea level, absolute");
const LIMIT: Range = Range::new(
    "gauge pressure the tank may see",
    Kind::GaugePressure,
    10.0,
    500e3,
    "2 kPa for a thin can, 10 kPa for a fabricated one",
);
/// Entrance and exit of a tube, in velocity heads.
const TUBE_ENDS: f64 = 1.5;

/// The way out of the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Vent {
    /// A hole in the lid.
    Hole {
        /// Diameter.
        diameter: Length,
        /// Discharge coefficient.
        discharge: Estimate<Ratio>,
    },
    /// A tube: K = 1.5 + f L/D, counted as a discharge coefficient 1/√K.
    Tube {
        /// Bore.
        bore: Length,
        /// Length.
        length: Length,
    },
}

impl Vent {
    /// A drilled hole with the usual discharge coefficient of 0.60 (0.55 to 0.65).
    #[must_use]
    pub fn hole(diameter: Length) -> Self {
        Self::Hole { diameter, discharge: defaults::hole_discharge().estimate }
    }

    fn check(&self) -> Result<(), CoolantError> {
        match self {
            Self::Hole { diameter, discharge } => {
                DIAMETER.check(*diameter)?;
                for value in [discharge.low, discharge.likely, discharge.high] {
                    COEFFICIENT.check(value)?;
                }
            }
            Self::Tube { bore, length } => {
                DIAMETER.check(*bore)?;
                LENGTH.check(*length)?;
            }
        }
        Ok(())
    }

    const fn diameter(&self) -> Length {
        match self {
            Self::Hole { diameter, .. } => *diameter,
            Self::Tube { bore, .. } => *bore,
        }
    }

    /// Low, likely and high discharge coefficient at a flow (kg/s).
    fn discharge(&self, gas: &Gas, flow: f64) -> [f64; 3] {
        match self {
            Self::Hole { discharge, .. } => [discharge.low.base(), discharge.likely.base(), discharge.high.base()],
            Self::Tube { bore, length } => {
                let d = bore.base();
                let reynolds = 4.0 * flow / (PI * d * gas.viscosity);
                let friction =
                    if reynolds > 0.0 { (64.0 / reynolds).max(0.316 / reynolds.powf(0.25)) } else { f64::INFINITY };
                let k = TUBE_ENDS + if length.base() > 0.0 { friction * length.base() / d } else { 0.0 };
                [1.0 / k.sqrt(); 3]
            }
        }
    }

    /// The gauge pressure in the tank at a flow. Compressible throughout; choked below the critical pressure ratio.
    ///
    /// A far too small vent gives a figure no tank bears: it then says only that the vent is too small.
    ///
    /// # Errors
    /// A figure out of range.
    pub fn pressure(
        &self,
        load: &VentLoad,
        ambient: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<VentPressure, CoolantError> {
        self.check()?;
        let outside = AMBIENT.check(ambient)?.base();
        let gas = load.gas.at(ambient)?;
        let area = PI / 4.0 * self.diameter().base().powi(2);
        let inside = |flow: MassRate, which: usize| -> Result<f64, CoolantError> {
            let flow = FLOW.check(flow)?.base();
            if flow == 0.0 {
                return Ok(outside);
            }
            let coefficient = self.discharge(&gas, flow).get(which).copied().unwrap_or(f64::NAN);
            gas.upstream(flow, coefficient * area, outside)
        };
        // The largest flow through the narrowest opening gives the highest pressure.
        let pressures = [(load.flow.low, 2), (load.flow.likely, 1), (load.flow.high, 0)];
        let mut gauge = [0.0; 3];
        for (value, (flow, which)) in gauge.iter_mut().zip(pressures) {
            *value = inside(flow, which)? - outside;
        }
        let [low, likely, high] = gauge.map(GaugePressure::from_base);
        let choked = outside <= gas.critical_ratio() * (outside + likely.base());
        let coefficient = self.discharge(&gas, load.flow.likely.base())[1];
        scribe.step(|| {
            let source = if matches!(self, Self::Tube { .. }) { &TUBE_FRICTION } else { &HOLE_DISCHARGE };
            Step::new("discharge coefficient of the vent", "C_d", "C_d of a hole, or 1/√(1.5 + f L/D)", source)
                .with("d", self.diameter())
                .gives(Ratio::from_base(coefficient))
        });
        scribe.step(|| {
            let equation = "ṁ = C_d A √(2γ/(γ−1) p ρ (r^(2/γ) − r^((γ+1)/γ))), r = p₀/p, choked below r*";
            Step::new("pressure in the tank", "p_tank", equation, &NOZZLE_FLOW)
                .with("ṁ", load.flow.likely)
                .with("d", self.diameter())
                .with_number("C_d", coefficient)
                .with("p₀", ambient)
                .with_number("γ", gas.gamma)
                .with_number("r*", gas.critical_ratio())
                .gives(likely)
        });
        Ok(VentPressure { gauge: Estimate::sorted(low, likely, high), choked })
    }
}

/// The pressure a flow builds in the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VentPressure {
    /// Above the ambient.
    pub gauge: Estimate<GaugePressure>,
    /// Whether the likely flow leaves the vent at the speed of sound.
    pub choked: bool,
}

/// The smallest hole that keeps the tank at or below a gauge pressure, for the low, likely and high flow:
/// d = √(4 ṁ/(π C_d flux(p))).
///
/// # Errors
/// A figure out of range.
pub fn smallest_hole(
    load: &VentLoad,
    limit: GaugePressure,
    discharge: &Estimate<Ratio>,
    ambient: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Length>, CoolantError> {
    let outside = AMBIENT.check(ambient)?.base();
    let gas = load.gas.at(ambient)?;
    let flux = gas.flux(outside + LIMIT.check(limit)?.base(), outside);
    let diameter = |flow: MassRate, coefficient: Ratio| -> Result<Length, CoolantError> {
        let area = FLOW.check(flow)?.base() / (COEFFICIENT.check(coefficient)?.base() * flux);
        Ok(Length::from_base((4.0 * area / PI).sqrt()))
    };
    let low = diameter(load.flow.low, discharge.high)?;
    let likely = diameter(load.flow.likely, discharge.likely)?;
    let high = diameter(load.flow.high, discharge.low)?;
    scribe.step(|| {
        Step::new("smallest hole", "d", "d = √(4 ṁ/(π C_d flux(p)))", &NOZZLE_FLOW)
            .with("ṁ", load.flow.likely)
            .with_amount("C_d", Amount::of(discharge.likely))
            .with("p", limit)
            .with_amount("flux(p)", Amount::new(flux, Kind::MassFlux))
            .gives(likely)
    });
    Ok(Estimate::sorted(low, likely, high))
}

/// The smallest bore of a tube of given length that keeps the tank at or below a gauge pressure at the likely flow.
///
/// # Errors
/// A figure out of range, or no bore up to 100 mm.
pub fn smallest_tube(
    load: &VentLoad,
    length: Length,
    limit: GaugePressure,
    ambient: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Length, CoolantError> {
    let wanted = LIMIT.check(limit)?.base();
    let exact = VentLoad { gas: load.gas, flow: Estimate::exact(load.flow.likely) };
    let over = |bore: f64| -> Result<f64, CoolantError> {
        let vent = Vent::Tube { bore: Length::from_base(bore), length };
        Ok((vent.pressure(&exact, ambient, &mut Silent)?.gauge.likely.base().max(1e-9) / wanted).ln())
    };
    let (low, high) = (DIAMETER.low, DIAMETER.high);
    if over(high)? > 0.0 {
        return Err(CoolantError::NoVent { largest: high, limit: wanted });
    }
    let bore = if over(low)? <= 0.0 {
        low
    } else {
        bracketed_root(|bore| over(bore).unwrap_or(f64::NAN), low, high, 1e-7)
            .map_err(CoolantError::unsolved("the bore of the vent tube"))?
            .at
    };
    let vent = Vent::Tube { bore: Length::from_base(bore), length };
    vent.pressure(&exact, ambient, scribe)?;
    Ok(Length::from_base(bore))
}

/// A perfect gas at rest in the tank.
pub(super) struct Gas {
    gamma: f64,
    /// p/ρ, J/kg; at a fixed temperature the same at every pressure.
    p_over_rho: f64,
    /// Pa·s.
    viscosity: f64,
}

impl VentGas {
    /// The gas at rest at a pressure.
    pub(super) fn at(self, pressure: AbsolutePressure) -> Result<Gas, CoolantError> {
        Ok(match self {
            Self::Air(temperature) => Gas {
                gamma: 1.4,
                p_over_rho: pressure.base() / air::density(pressure, temperature, &mut Silent)?.base(),
                viscosity: air::viscosity(temperature, &mut Silent)?.base(),
            },
            Self::Steam => {
                let temperature = water::saturation_temperature(pressure, &mut Silent)?;
                let density = water::steam_density(temperature, &mut Silent)?.base();
                let viscosity = defaults::steam_viscosity().likely().base();
                Gas { gamma: 1.3, p_over_rho: pressure.base() / density, viscosity }
            }
        })
    }
}

impl Gas {
    /// Pressure ratio at and below which the flow is choked.
    fn critical_ratio(&self) -> f64 {
        (2.0 / (self.gamma + 1.0)).powf(self.gamma / (self.gamma - 1.0))
    }

    /// Choked mass flux (kg/(m²·s)) from a pressure (Pa).
    pub(super) fn choked_flux(&self, p: f64) -> f64 {
        let g = self.gamma;
        p / self.p_over_rho.sqrt() * g.sqrt() * (2.0 / (g + 1.0)).powf((g + 1.0) / (2.0 * (g - 1.0)))
    }

    /// Ideal mass flux (kg/(m²·s)) from a pressure to an outside pressure (Pa).
    fn flux(&self, p: f64, outside: f64) -> f64 {
        let (g, r) = (self.gamma, outside / p);
        if r <= self.critical_ratio() {
            return self.choked_flux(p);
        }
        let head = 2.0 * g / (g - 1.0) * (r.powf(2.0 / g) - r.powf((g + 1.0) / g));
        p / self.p_over_rho.sqrt() * head.max(0.0).sqrt()
    }

    /// The pressure (Pa) that drives a flow (kg/s) through an effective area (m²).
    fn upstream(&self, flow: f64, area: f64, outside: f64) -> Result<f64, CoolantError> {
        // At this pressure the flow is choked, and at least as large.
        let enough = (flow / (area * self.choked_flux(1.0))).max(outside / self.critical_ratio()) * 1.001;
        let root = bracketed_root(|p| self.flux(p, outside) * area - flow, outside, enough, 1e-6);
        Ok(root.map_err(CoolantError::unsolved("the pressure in the tank"))?.at)
    }
}
