//! Where the valve's hose joins the intake.

use crate::note::{Note, Weight};
use crate::quantity::si::Length;
use crate::quantity::{Amount, Kind, OutOfRange, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::moisture::PORTS;

/// Bores of ports and valves.
static BORE: Range =
    Range::new("bore of the port or the valve", Kind::SmallLength, 1.0e-6, 0.1, "6 to 16 mm; measure the hole");

/// Where the hose joins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PortPlace {
    /// The plenum, common to all cylinders.
    Plenum,
    /// One runner.
    OneRunner,
    /// The base of the carburettor, or a spacer below its throttle.
    CarburettorBase,
    /// A tee in the hose of the brake booster.
    BoosterTee,
    /// Before a throttle and before any blower: the clean side of the air cleaner, or a port the throttle covers when shut.
    BeforeThrottle,
}

/// A port.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Port {
    /// Where the hose joins.
    pub place: PortPlace,
    /// Bore of the port.
    pub bore: Length,
    /// Bore of the valve's outlet.
    pub valve_bore: Length,
    /// Whether the valve, or a check valve beside it, shuts when gas pushes back, or a flame screen stands in the line.
    pub shuts_backward: bool,
    /// Whether what shuts it is a check valve, which bears boost; a plunger on its seat is none.
    pub checked: bool,
    /// Whether the port comes under boost.
    pub boosted: bool,
    /// Whether the engine has a throttle; a diesel has none.
    pub throttled: bool,
}

/// What is to be said of a port.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PortFinding {
    /// Nothing against it.
    Suits,
    /// The port is narrower than the valve, and decides its flow.
    NarrowerThanValve,
    /// One cylinder gets all the gas: it runs lean and takes the oil.
    OneCylinder,
    /// It shares the hose of the brake booster.
    SharesBrakes,
    /// No depression at idle and part load: the valve passes next to nothing.
    NoDepression,
    /// No throttle, so no depression behind it either.
    NoThrottle,
    /// The clean side of the air cleaner, where an engine without a throttle takes the gas.
    CleanSide,
    /// Nothing but a plunger's seat holds the boost back.
    BoostOnSeat,
    /// Boost would blow into the crankcase.
    BoostEnters,
    /// A backfire would reach the crankcase.
    BackfireEnters,
}

impl PortFinding {
    /// The remark a person reads.
    #[must_use]
    pub fn note(self) -> Note {
        let (key, weight, text) = match self {
            Self::Suits => {
                ("port-suits", Weight::Remark, "The port has full manifold depression and serves all cylinders alike.")
            }
            Self::NarrowerThanValve => (
                "port-narrow",
                Weight::Weak,
                "The port is narrower than the valve: the port, not the valve, decides the flow. Use one at least as wide.",
            ),
            Self::OneCylinder => (
                "port-one-runner",
                Weight::Weak,
                "The port feeds one runner: that cylinder runs lean at idle and takes all the oil. Use a port on the plenum.",
            ),
            Self::SharesBrakes => (
                "port-brake-booster",
                Weight::Danger,
                "The hose of the brake booster is no place for oil and a leak: brakes may lose their help. Use another port unless \
                 the car's maker allows this one.",
            ),
            Self::NoDepression => (
                "port-before-throttle",
                Weight::Weak,
                "Before the throttle there is next to no depression at idle and part load: the valve passes little, no fresh air \
                 sweeps the crankcase, and water and fuel stay in it. Such a port serves as the full-throttle outlet only.",
            ),
            Self::NoThrottle => (
                "port-no-throttle",
                Weight::Weak,
                "A diesel has no throttle: its manifold draws next to nothing, and with a blower it pushes. The clean side of the \
                 air cleaner is the place for the gas.",
            ),
            Self::CleanSide => (
                "port-clean-side",
                Weight::Remark,
                "Without a throttle the clean side of the air cleaner, before any blower, is the place for the gas. A separator \
                 must keep the oil out.",
            ),
            Self::BoostOnSeat => (
                "port-boost",
                Weight::Weak,
                "The port comes under boost, and a plunger on its seat is no check valve: worn or dirty it lets boost into the \
                 crankcase. Put a tight check valve between valve and port.",
            ),
            Self::BoostEnters => (
                "port-boost",
                Weight::Danger,
                "Boost would blow into the crankcase and push seals and oil out, onto hot parts. Put a check valve in the line.",
            ),
            Self::BackfireEnters => (
                "port-backfire",
                Weight::Danger,
                "Nothing shuts the line on a backfire: crankcase gas with fuel in it can burn. Use a valve that seats on \
                 pressure from the intake, or a check valve or flame screen beside it. None of these is a certified arrester.",
            ),
        };
        Note::new(key, weight, text)
    }
}

/// What is to be said of where the valve joins the intake; the worst comes last, and [`PortFinding::Suits`] stands alone.
///
/// # Errors
/// A bore outside 0.001 to 100 mm.
pub fn check_port(port: &Port, scribe: &mut impl Scribe) -> Result<Vec<PortFinding>, OutOfRange> {
    let (bore, valve) = (BORE.check(port.bore)?, BORE.check(port.valve_bore)?);
    let mut findings = Vec::new();
    if bore < valve {
        findings.push(PortFinding::NarrowerThanValve);
    }
    match port.place {
        PortPlace::Plenum | PortPlace::CarburettorBase => {}
        PortPlace::OneRunner => findings.push(PortFinding::OneCylinder),
        PortPlace::BeforeThrottle if port.throttled => findings.push(PortFinding::NoDepression),
        PortPlace::BeforeThrottle => findings.push(PortFinding::CleanSide),
        PortPlace::BoosterTee => findings.push(PortFinding::SharesBrakes),
    }
    let behind = port.place != PortPlace::BeforeThrottle;
    if behind && !port.throttled {
        findings.push(PortFinding::NoThrottle);
    }
    if behind && port.boosted && port.shuts_backward && !port.checked {
        findings.push(PortFinding::BoostOnSeat);
    }
    if !port.shuts_backward {
        // Only a charge of fuel and air flashes back through the intake.
        if port.throttled {
            findings.push(PortFinding::BackfireEnters);
        }
        if port.boosted {
            findings.push(PortFinding::BoostEnters);
        }
    }
    if findings.is_empty() {
        findings.push(PortFinding::Suits);
    }
    scribe.step(|| {
        Step::new("bore of the port over that of the valve", "r", "r = d_port/d_valve", &PORTS)
            .with_amount("d_port", Amount::of_kind(bore, Kind::SmallLength))
            .with_amount("d_valve", Amount::of_kind(valve, Kind::SmallLength))
            .gives(bore / valve)
    });
    Ok(findings)
}
