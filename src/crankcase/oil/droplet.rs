//! Droplets: how fast they fall, which a rising gas carries, and which strike a wall.

use super::{OilError, defaults};
use crate::crankcase::moisture::CRANKCASE_PRESSURE;
use crate::fluid::{air, crankcase_gas};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Length, MassDensity, Ratio, ThermodynamicTemperature as Temperature, Velocity};
use crate::quantity::{AbsolutePressure, Amount, GRAVITY, Kind, Measured, Range, ZERO_CELSIUS};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::moisture::{IMPACTION, SCHILLER_NAUMANN, SOUDERS_BROWN, STOKES};

/// The largest droplet the drag law is asked about, m, and the Reynolds number it holds to.
const LARGEST: f64 = 2e-3;

/// Diameters of droplets. Below about 1 µm a droplet slips between the molecules and falls faster than this by a fifth and
/// more; it stays in the gas all the same.
pub static DIAMETER: Range =
    Range::new("droplet diameter", Kind::DropletSize, 0.5e-6, LARGEST, "mist has 0.5 to 10 µm, splash 0.1 to 2 mm");
/// Reynolds numbers that the drag law holds for.
static REYNOLDS: Range = Range::new(
    "Reynolds number of the droplet",
    Kind::Number,
    0.0,
    800.0,
    "ask about a smaller droplet; large drops deform",
);
/// Gas speeds.
pub static SPEED: Range =
    Range::new("gas speed", Kind::GasSpeed, 1e-6, 100.0, "0.1 to 20 m/s in a crankcase and its hoses");
/// Temperatures of the gas.
pub static GAS_TEMPERATURE: Range =
    Range::new("gas temperature", Kind::Temperature, ZERO_CELSIUS - 40.0, 473.15, "60 to 130 °C in a warm crankcase");
/// Bores and widths of holes.
pub static BORE: Range = Range::new("bore", Kind::SmallLength, 0.5e-3, 0.5, "3 to 40 mm in a crankcase ventilation");

/// Gas with droplets of oil in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mist {
    /// Temperature of the gas, −40 to 200 °C.
    pub temperature: Temperature,
    /// Its pressure, 20 to 200 kPa.
    pub pressure: AbsolutePressure,
    /// Density of the oil; default [`defaults::density`].
    pub oil: MassDensity,
}

impl Mist {
    /// Warm crankcase gas with the usual oil at this pressure.
    #[must_use]
    pub fn usual(pressure: AbsolutePressure) -> Self {
        Self { temperature: crankcase_gas::temperature().likely(), pressure, oil: defaults::density().likely() }
    }

    /// Densities of oil and gas, kg/m³, and viscosity of the gas, Pa·s.
    pub(super) fn state(&self) -> Result<State, OilError> {
        GAS_TEMPERATURE.check(self.temperature)?;
        CRANKCASE_PRESSURE.check(self.pressure)?;
        Ok(State {
            oil: defaults::density().check(self.oil)?.base(),
            gas: crankcase_gas::density(self.pressure, self.temperature, &mut Silent)?.base(),
            viscosity: air::viscosity(self.temperature, &mut Silent)?.base(),
        })
    }
}

#[derive(Clone, Copy)]
pub(super) struct State {
    pub(super) oil: f64,
    pub(super) gas: f64,
    viscosity: f64,
}

impl State {
    fn stokes(&self, diameter: f64) -> f64 {
        (self.oil - self.gas) * GRAVITY * diameter * diameter / (18.0 * self.viscosity)
    }

    fn reynolds(&self, diameter: f64, speed: f64) -> f64 {
        self.gas * speed * diameter / self.viscosity
    }

    /// Drag over that of Stokes.
    fn drag(&self, diameter: f64, speed: f64) -> f64 {
        1.0 + 0.15 * self.reynolds(diameter, speed).powf(0.687)
    }

    fn settling(&self, diameter: f64) -> Result<f64, OilError> {
        let stokes = self.stokes(diameter);
        let excess = |speed: f64| speed * self.drag(diameter, speed) - stokes;
        Ok(bracketed_root(excess, 0.0, stokes, 1e-12 * stokes)?.at)
    }

    fn shown(&self, step: Step) -> Step {
        step.with("ρ_l", MassDensity::from_base(self.oil))
            .with("ρ_g", MassDensity::from_base(self.gas))
            .with_amount("μ", Amount::new(self.viscosity, Kind::Viscosity))
    }
}

/// How a droplet falls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// By Stokes' law alone.
    pub stokes: Velocity,
    /// With the drag of Schiller and Naumann: the answer.
    pub speed: Velocity,
    /// Reynolds number of the droplet at that speed.
    pub reynolds: Ratio,
}

/// Speed at which a droplet falls through still gas: `v (1 + 0.15 Re^0.687) = (ρ_l − ρ_g) g d²/(18 μ)`; the right side is
/// Stokes' speed. 0.5 µm to 2 mm, Re below 800.
///
/// # Errors
/// A figure outside its range, or a droplet so large that Re passes 800.
pub fn fall(diameter: Length, mist: &Mist, scribe: &mut impl Scribe) -> Result<Fall, OilError> {
    let d = DIAMETER.check(diameter)?.base();
    let state = mist.state()?;
    let stokes = Velocity::from_base(state.stokes(d));
    let speed = Velocity::from_base(state.settling(d)?);
    let reynolds = REYNOLDS.check(Ratio::from_base(state.reynolds(d, speed.base())))?;
    scribe.step(|| {
        let equation = "v_s = (ρ_l − ρ_g)·g·d²/(18·μ)";
        state
            .shown(Step::new("fall of a droplet after Stokes", "v_s", equation, &STOKES))
            .with_amount("d", Amount::of_kind(diameter, Kind::DropletSize))
            .gives_amount(Amount::of_kind(stokes, Kind::GasSpeed))
    });
    scribe.step(|| {
        let equation = "v·(1 + 0.15·Re^0.687) = v_s, Re = ρ_g·v·d/μ";
        Step::new("fall of a droplet", "v", equation, &SCHILLER_NAUMANN)
            .with_amount("v_s", Amount::of_kind(stokes, Kind::GasSpeed))
            .with("Re", reynolds)
            .gives_amount(Amount::of_kind(speed, Kind::GasSpeed))
    });
    Ok(Fall { stokes, speed, reynolds })
}

/// The droplet that a rising gas just holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutSize {
    /// By Stokes' law alone.
    pub stokes: Length,
    /// With the drag of Schiller and Naumann, the answer: smaller droplets go along. None when even the largest does that the
    /// law knows, 2 mm or Re 800.
    pub diameter: Option<Length>,
}

/// The droplet that gas rising at a speed just holds up; smaller ones go along, larger ones fall.
///
/// # Errors
/// A figure outside its range: speed 1 µm/s to 100 m/s.
pub fn cut_size_in_upflow(speed: Velocity, mist: &Mist, scribe: &mut impl Scribe) -> Result<CutSize, OilError> {
    let v = SPEED.check(speed)?.base();
    let state = mist.state()?;
    let by_stokes = (18.0 * state.viscosity * v / ((state.oil - state.gas) * GRAVITY)).sqrt();
    // The droplet falls at v where its speed by Stokes equals v with the drag on top.
    let lacking = |d: f64| state.stokes(d) - v * state.drag(d, v);
    let diameter = if by_stokes >= LARGEST || lacking(LARGEST) < 0.0 {
        None
    } else {
        let held = bracketed_root(lacking, by_stokes, LARGEST, 1e-12)?.at;
        REYNOLDS.check_base(state.reynolds(held, v)).is_ok().then(|| Length::from_base(held))
    };
    let stokes = Length::from_base(by_stokes);
    scribe.step(|| {
        let equation = "d_s = √(18·μ·v/((ρ_l − ρ_g)·g))";
        state
            .shown(Step::new("droplet held up by rising gas after Stokes", "d_s", equation, &STOKES))
            .with_amount("v", Amount::of_kind(speed, Kind::GasSpeed))
            .gives_amount(Amount::of_kind(stokes, Kind::DropletSize))
    });
    if let Some(diameter) = diameter {
        scribe.step(|| {
            let equation = "d² = d_s²·(1 + 0.15·Re^0.687), Re = ρ_g·v·d/μ";
            Step::new("droplet held up by rising gas", "d", equation, &SCHILLER_NAUMANN)
                .with_amount("d_s", Amount::of_kind(stokes, Kind::DropletSize))
                .with_number("Re", state.reynolds(diameter.base(), v))
                .gives_amount(Amount::of_kind(diameter, Kind::DropletSize))
        });
    }
    Ok(CutSize { stokes, diameter })
}

/// Gas speed above which a separator is flooded, `v = K √((ρ_l − ρ_g)/ρ_g)`.
///
/// # Errors
/// A figure outside its range: K 0.005 to 0.5 m/s.
pub fn souders_brown(factor: Velocity, mist: &Mist, scribe: &mut impl Scribe) -> Result<Velocity, OilError> {
    let k = defaults::CanInside::Mesh.souders_brown().check(factor)?.base();
    let state = mist.state()?;
    let speed = Velocity::from_base(k * ((state.oil - state.gas) / state.gas).sqrt());
    scribe.step(|| {
        let equation = "v = K·√((ρ_l − ρ_g)/ρ_g)";
        state
            .shown(Step::new("gas speed above which a separator floods", "v", equation, &SOUDERS_BROWN))
            .with_amount("K", Amount::of_kind(factor, Kind::GasSpeed))
            .gives_amount(Amount::of_kind(speed, Kind::GasSpeed))
    });
    Ok(speed)
}

/// Half of the droplets of this diameter strike the wall a jet is turned by, `d₅₀ = √(9 μ W Stk₅₀/(ρ_l U))`; larger ones
/// strike, smaller ones follow the gas. Slip is left out: below about 1 µm the true cut is a little smaller.
///
/// # Errors
/// A figure outside its range: jet speed 1 µm/s to 100 m/s, width 0.5 mm to 0.5 m.
pub fn impaction_cut(
    speed: Velocity,
    width: Length,
    stokes_number: Ratio,
    mist: &Mist,
    scribe: &mut impl Scribe,
) -> Result<Length, OilError> {
    let (u, w) = (SPEED.check(speed)?.base(), BORE.check(width)?.base());
    let number = defaults::impaction_number().check(stokes_number)?.base();
    let state = mist.state()?;
    let cut = Length::from_base((9.0 * state.viscosity * w * number / (state.oil * u)).sqrt());
    scribe.step(|| {
        let equation = "d₅₀ = √(9·μ·W·Stk₅₀/(ρ_l·U))";
        state
            .shown(Step::new("droplet half of which strike the wall", "d₅₀", equation, &IMPACTION))
            .with_amount("U", Amount::of_kind(speed, Kind::GasSpeed))
            .with_amount("W", Amount::of_kind(width, Kind::SmallLength))
            .with_number("Stk₅₀", number)
            .gives_amount(Amount::of_kind(cut, Kind::DropletSize))
    });
    Ok(cut)
}
