//! Whether a changed ventilation holds: solved again at every duty, at the blow-by each limit is judged by.

use crate::crankcase::arrangement::{Boundary, Ventilation};
use crate::quantity::Measured;
use crate::quantity::si::{MassRate, VolumeRate};
use crate::study::compose::verdicts::Findings;
use crate::study::compose::verdicts::crankcase::most_pressed;
use crate::study::compose::{crankcase, ventilation};
use crate::study::{Answers, CrankcaseCase, Duty, DutyAnswers, Flow, FlowPath, State, VentilationInputs};

/// What a change is to mend. What is not wanted must not become worse than it is where it fails already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Wanted {
    /// Every duty within its pressure limit.
    pub(super) pressure: bool,
    /// Every duty within its depression limit, and what is wrong with that now.
    pub(super) depression: Option<State>,
}

/// One solution that must stay under a pressure, or above it.
struct Case {
    at: Boundary,
    name: &'static str,
    /// Gauge pressures allowed, Pa.
    most: f64,
    least: f64,
    /// How far outside it stands now, Pa; what is farthest is looked at first.
    off: f64,
}

/// All that must hold.
pub(super) struct Proof<'a, 'f, 'p> {
    answers: &'a Answers,
    findings: &'f Findings<'f, 'p>,
    cases: Vec<Case>,
    depression_wanted: bool,
}

impl<'a, 'f, 'p> Proof<'a, 'f, 'p> {
    pub(super) fn new(answers: &'a Answers, findings: &'f Findings<'_, 'p>, wanted: Wanted) -> Self
    where
        'p: 'f,
    {
        let mut proof =
            Self { answers, findings, cases: Vec::with_capacity(15), depression_wanted: wanted.depression.is_some() };
        let has_valve = findings.context.project.ventilation.has_valve();
        for duty in &answers.duties {
            let now = duty.high().gauge.base();
            let limit = duty.limit.likely.base();
            let most = if wanted.pressure { limit } else { limit.max(now) };
            proof.add(duty, duty.blow_by.forward.high, most, f64::NEG_INFINITY, now - limit);
            if has_valve || wanted.depression.is_some() {
                let now = duty.deepest.gauge.base();
                let spare = wanted.depression == Some(State::Thin) && duty.duty != Duty::FullThrottle;
                let depth = if spare { duty.depression.low } else { duty.depression.likely };
                let limit = -depth.base();
                let least = if wanted.depression.is_some() { limit } else { limit.min(now) };
                let net = duty.blow_by.net;
                for flow in [net.low, net.likely] {
                    proof.add(duty, flow, f64::INFINITY, least, limit - now);
                }
            }
        }
        proof.cases.sort_by(|a, b| b.off.total_cmp(&a.off));
        proof
    }

    fn boundary(&self, duty: &DutyAnswers, blow_by: MassRate) -> Boundary {
        let context = self.findings.context;
        let full = self.answers.duties[Duty::FullThrottle.index()].air;
        let filter = context.filter_depression(duty.air, full).likely;
        crankcase::boundary(context, blow_by, duty.manifold, filter)
    }

    fn add(&mut self, duty: &DutyAnswers, blow_by: MassRate, most: f64, least: f64, off: f64) {
        // What holds now but for rounding holds.
        let (most, least) = (most + 1e-6 * most.abs(), least - 1e-6 * least.abs());
        self.cases.push(Case { at: self.boundary(duty, blow_by), name: duty.duty.name(), most, least, off });
    }

    /// Whether a changed ventilation keeps every case in bounds; one that cannot be solved does not.
    ///
    /// Ways made wider bring no depression deeper: unless that is what is to be mended, only another valve asks for a look at it.
    pub(super) fn holds(&self, inputs: &VentilationInputs) -> bool {
        let present = &self.findings.context.project.ventilation;
        let all = self.depression_wanted || inputs.valve != present.valve;
        let asked = || self.cases.iter().filter(|case| all || case.least == f64::NEG_INFINITY);
        ventilation::ventilation(inputs).is_ok_and(|changed| asked().all(|case| case.holds(&changed)))
    }

    /// A changed ventilation at the high blow-by of the duty that is worst now.
    fn at_worst(&self, inputs: &VentilationInputs) -> Option<Flow> {
        self.case_at_worst(inputs)?.flow(FlowPath::Breather).cloned()
    }

    fn case_at_worst(&self, inputs: &VentilationInputs) -> Option<CrankcaseCase> {
        let duty = most_pressed(self.answers)?;
        let changed = ventilation::ventilation(inputs).ok()?;
        let at = self.boundary(duty, duty.blow_by.forward.high);
        crankcase::quick_case(&changed, &at, duty.duty.name()).ok()
    }

    /// The piece of the breather's way that takes most of the pressure there.
    pub(super) fn tightest(&self, inputs: &VentilationInputs) -> Option<String> {
        self.at_worst(inputs)?.tightest.map(|(piece, _)| piece)
    }

    /// The flow by the breather, of two the one that carries more, at the high blow-by of the duty that is worst now, air of
    /// 20 °C and 101.325 kPa.
    pub(super) fn through(&self, inputs: &VentilationInputs) -> VolumeRate {
        let flows = self.case_at_worst(inputs).map(|case| case.flows).unwrap_or_default();
        let breathers = flows.iter().filter(|flow| flow.path != FlowPath::Valve).map(|flow| flow.standard);
        breathers
            .fold(VolumeRate::from_base(0.0), |most, one| if one.base().abs() > most.base().abs() { one } else { most })
    }
}

impl Case {
    fn holds(&self, changed: &Ventilation) -> bool {
        crankcase::quick_case(changed, &self.at, self.name)
            .is_ok_and(|case| (self.least..=self.most).contains(&case.gauge.base()))
    }
}
