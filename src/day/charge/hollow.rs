//! The system at one set of temperatures: the pressure at which a mass of coolant and an amount of gas fill it.
//!
//! What fits is A + B·max(p − p₀, 0) − ρ_gas·n·T_gas/(p − p_bub) less what vapour takes: a quadratic in p − p_bub, the
//! same balance as the steady answer's.

/// Near boiling a little gas would take all the room there is, for vapour follows it without end. Above the ambient it
/// takes no more than this many times its dry room, unless its part holds more: what vapour there is beyond is the
/// engine's, told by [`crate::day::exchange::Vapour`].
const WETTEST: f64 = 3.0;

/// Inside: kg, m³, Pa, K; gas in J/K as (p − p_bub)·V/T.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Hollow {
    /// Coolant that fills everything at the ambient, A.
    pub brim: f64,
    /// What the swell of the hoses adds to it per pascal above the ambient, B.
    pub swell: f64,
    /// All the room at the ambient.
    pub room: f64,
    pub ambient: f64,
    /// Room of the part the gas sits in, at the ambient.
    pub gas_place: f64,
    /// What swell adds to it per pascal above the ambient.
    pub gas_place_swell: f64,
    pub gas_temperature: f64,
    /// Density of the coolant where the gas sits.
    pub gas_density: f64,
    /// Bubble pressure there.
    pub gas_bubble: f64,
    /// Bubble pressure of the hottest coolant, wherever it is: below it that coolant flashes, and its vapour fills what room
    /// gas and coolant leave. Some tenths of a gram do that, whose heat is left out.
    pub hottest_bubble: f64,
    /// Coolant that vapour in the engine pushes aside.
    pub pushed_aside: f64,
}

/// Where a shut system stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stands {
    /// Pa absolute; infinite when nothing gives way.
    pub pressure: f64,
    /// Room of the gas, or of a void of vapour, m³.
    pub gas: f64,
    /// Whether the coolant does not fill the system and vapour fills the rest.
    pub void: bool,
}

impl Hollow {
    /// Coolant that fills the system without gas, beside the vapour of the engine.
    pub fn brim_at(&self, pressure: f64) -> f64 {
        self.brim + self.swell * (pressure - self.ambient).max(0.0) - self.pushed_aside
    }

    /// Room of the part the gas sits in.
    pub fn gas_place_at(&self, pressure: f64) -> f64 {
        self.gas_place + self.gas_place_swell * (pressure - self.ambient).max(0.0)
    }

    /// Room of the gas at a pressure, as the steady answer has it; but see [`WETTEST`].
    pub fn gas_volume(&self, gas: f64, pressure: f64) -> f64 {
        if gas <= 0.0 {
            return 0.0;
        }
        let over = pressure - self.gas_bubble;
        let most = self.most_gas(gas, pressure);
        if over <= 0.0 { most } else { (gas * self.gas_temperature / over).min(most) }
    }

    fn most_gas(&self, gas: f64, pressure: f64) -> f64 {
        if pressure >= self.ambient {
            self.gas_place_at(pressure).max(WETTEST * gas * self.gas_temperature / pressure)
        } else {
            self.all_room()
        }
    }

    /// All the room gas can take. What coolant leaves is counted at the density where the gas sits, so of a system next to
    /// empty it may come to a little more than the hollow holds.
    fn all_room(&self) -> f64 {
        self.room.max((self.brim - self.pushed_aside) / self.gas_density)
    }

    /// Coolant that fits beside the gas.
    pub fn fits(&self, gas: f64, pressure: f64) -> f64 {
        self.brim_at(pressure) - self.gas_density * self.gas_volume(gas, pressure)
    }

    /// Gas that fills the room a mass of coolant leaves at a pressure.
    pub fn gas_beside(&self, mass: f64, pressure: f64) -> f64 {
        let room = ((self.brim_at(pressure) - mass) / self.gas_density).max(0.0);
        (pressure - self.gas_bubble).max(0.0) * room / self.gas_temperature
    }

    /// The pressure at which a mass of coolant and an amount of gas fill the system; `was` is where it stood, and stands
    /// still while coolant alone just fills what does not give way.
    pub fn stands(&self, mass: f64, gas: f64, was: f64) -> Stands {
        let gas = gas.max(0.0);
        let spare = self.brim - self.pushed_aside - mass;
        if gas == 0.0 && self.gas_bubble < self.ambient && spare.abs() <= 1e-12 * mass.abs() {
            let most = if self.swell > 0.0 { self.ambient } else { f64::INFINITY };
            let pressure = was.max(self.gas_bubble).min(most).max(self.hottest_bubble);
            return Stands { pressure, gas: 0.0, void: false };
        }
        let held = self.gas_density * gas * self.gas_temperature;
        let below = self.gas_bubble < self.ambient && self.fits(gas, self.ambient) > mass;
        let over = if below {
            // The room is the coolant's spare: the gas, or vapour without gas, fills it.
            if spare > 0.0 { held / spare } else { f64::INFINITY }
        } else {
            self.over(spare, held)
        };
        // No gas can take more room than there is.
        let room = self.all_room();
        let floor = if room > 0.0 { gas * self.gas_temperature / room } else { 0.0 };
        let free = self.gas_bubble + over.max(floor);
        let pressure = if below { free.min(self.ambient) } else { self.kept_in_place(mass, gas, free) };
        // Gas in a cooler place does not let the pressure fall below where the hottest coolant boils.
        let flashes = pressure < self.hottest_bubble;
        let pressure = pressure.max(self.hottest_bubble);
        // Whatever the coolant does not fill is the gas's, or the vapour's.
        let left = self.brim_at(pressure) - mass;
        let void =
            (flashes || over <= floor) && left - self.gas_density * self.gas_volume(gas, pressure) > 1e-12 * mass.abs();
        Stands { pressure, gas: (left / self.gas_density).max(0.0), void }
    }

    /// Pressure above the bubble pressure where hoses swell: B x² + c x = ρ n T, c = A + B (p_bub − p₀) − m.
    fn over(&self, spare: f64, held: f64) -> f64 {
        positive_root(self.swell, spare + self.swell * (self.gas_bubble - self.ambient), held)
    }

    /// A pressure above the ambient, lower when the gas there would be more than may be.
    fn kept_in_place(&self, mass: f64, gas: f64, free: f64) -> f64 {
        if free <= self.ambient || gas * self.gas_temperature <= (free - self.gas_bubble) * self.most_gas(gas, free) {
            return free;
        }
        let spare = self.brim - self.pushed_aside - mass - self.swell * self.ambient;
        let lacks = self.gas_density * (self.gas_place - self.gas_place_swell * self.ambient) - spare;
        // The other hoses swell; those around the gas make room for themselves.
        let gives = self.swell - self.gas_density * self.gas_place_swell;
        // What neither coolant nor gas fills there, vapour does.
        let least = self.ambient.max(self.gas_bubble).min(free);
        let in_place = match (lacks > gives * self.ambient, gives > 1e-12 * self.swell) {
            (false, _) => least,
            (true, true) => lacks / gives,
            (true, false) => f64::INFINITY,
        };
        let wettest = positive_root(self.swell, spare, WETTEST * self.gas_density * gas * self.gas_temperature);
        in_place.max(wettest).max(least).min(free)
    }
}

/// The root x ≥ 0 of b x² + c x = d, for b, d ≥ 0; infinite when there is none.
fn positive_root(b: f64, c: f64, d: f64) -> f64 {
    let root = (c * c + 4.0 * b * d).sqrt();
    if c > 0.0 {
        2.0 * d / (c + root)
    } else if b > 0.0 {
        (root - c) / (2.0 * b)
    } else {
        f64::INFINITY
    }
}
