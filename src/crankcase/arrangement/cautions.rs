//! What is seen, what it is likely to mean, what to do; and what can hurt somebody. Common practice, no source, unless
//! said otherwise.

/// Something seen on a car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Symptom {
    /// A stable key.
    pub key: &'static str,
    /// What is seen.
    pub seen: &'static str,
    /// What is likely behind it.
    pub likely: &'static str,
    /// What to do.
    pub act: &'static str,
}

/// Failures of a crankcase ventilation.
pub static SYMPTOMS: [Symptom; 6] = [
    Symptom {
        key: "symptom-full-throttle",
        seen: "The crankcase pressure is high at full throttle only.",
        likely: "The outlets are too small for the blow-by, or the rings are worn.",
        act: "Add outlet area where the drop is largest; do a leak-down test.",
    },
    Symptom {
        key: "symptom-every-duty",
        seen: "The crankcase pressure is high at every duty.",
        likely: "The breather is blocked or frozen, its filter plugged, or a hose kinked.",
        act: "Clear it and measure again.",
    },
    Symptom {
        key: "symptom-deep",
        seen: "A deep depression, a whistle, oil disappears.",
        likely: "The fresh-air path is blocked or the PCV valve is stuck open.",
        act: "Look at the breather first, then at the valve.",
    },
    Symptom {
        key: "symptom-air-cleaner",
        seen: "Oil in the air cleaner.",
        likely: "The breather turns outwards at full throttle.",
        act: "Baffle it, and give the gas a larger space to slow down in.",
    },
    Symptom {
        key: "symptom-milky",
        seen: "A milky film under the cover or the cap.",
        likely: "Short trips, little fresh air, a cold can.",
        act: "Run it warm for longer, insulate, let fresh air in.",
    },
    Symptom {
        key: "symptom-smoke",
        seen: "A puff of smoke after overrun.",
        likely: "Gas and oil were drawn up past the rings or along the valve guides.",
        act: "Lessen the depression on overrun; look at the valve stem seals.",
    },
];

/// A caution with a stable key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// A stable key.
    pub key: &'static str,
    /// The sentence a person reads.
    pub text: &'static str,
}

/// What can hurt somebody, or be unlawful, around a crankcase ventilation.
pub static CAUTIONS: [Caution; 7] = [
    Caution {
        key: "hot-oil",
        text: "Oil on a hot exhaust burns. Lead vents and drains away from exhaust, ignition and belts, and stop at any \
               smell of hot oil.",
    },
    Caution {
        key: "running-engine",
        text: "A running engine moves, burns and shocks. Measure with the car held fast, sleeves clear and outdoors: \
               exhaust and crankcase gas are poisonous.",
    },
    Caution {
        key: "never-plug",
        text: "Never plug every way out and never put shop air into a sealed crankcase: a few kPa move seals. A \
               leak-down test can spin the crankshaft: lock it and keep hands clear.",
    },
    Caution {
        key: "flame",
        text: "Crankcase gas with fuel vapour can burn. Where the manifold can backfire the line needs a valve that shuts \
               or a flame screen; neither reckoned here is a certified flame arrester.",
    },
    Caution {
        key: "oil-mist",
        text: "Oil mist in crankcase gas can burn: keep flames, sparks and hot parts away from open lines and covers.",
    },
    Caution {
        key: "law",
        text: "Venting crankcase gas to the air, or taking out or altering PCV parts, may be unlawful on the road (in the \
               United States 40 CFR parts 86, 1048 and 1051 ask for closed crankcases of several engine classes; part 86 \
               from memory). Local rules decide, not this program.",
    },
    Caution {
        key: "estimate",
        text: "These pressures rest on blow-by known within a factor of two or worse. A manometer on the dipstick tube \
               beats them; fit one before cutting metal.",
    },
];

/// What to look at before a PCV valve is led to a port of the manifold.
pub static PORT_CHECKS: [Caution; 4] = [
    Caution { key: "port-bore", text: "The port must be at least as wide as the valve." },
    Caution {
        key: "port-plenum",
        text: "Take the port from the plenum, not from one runner: that cylinder would run lean and oily.",
    },
    Caution {
        key: "port-boost",
        text: "A port that sees boost needs a tight check valve, or it blows into the crankcase.",
    },
    Caution {
        key: "port-brake",
        text: "Do not tee into the brake booster's hose unless the brake's supplier allows it.",
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique() {
        let cautions = CAUTIONS.iter().chain(&PORT_CHECKS).map(|caution| caution.key);
        let mut keys: Vec<_> = cautions.chain(SYMPTOMS.iter().map(|symptom| symptom.key)).collect();
        let all = keys.len();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), all);
    }
}
