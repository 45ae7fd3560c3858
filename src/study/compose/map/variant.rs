//! The ventilation a map is made for.

use super::super::ventilation as as_described;
use crate::crankcase::arrangement::{Stuck, Ventilation};
use crate::study::{CanPlace, Problems, Project, Variant, VentilationArrangement, VentilationInputs};

/// The inputs of a variant, where they are not the project's own.
fn inputs(present: &VentilationInputs, variant: &Variant) -> Option<VentilationInputs> {
    match variant {
        Variant::Present | Variant::ValveStuckShut | Variant::BreatherBlocked => None,
        Variant::Other(inputs) => Some((**inputs).clone()),
        Variant::Arranged(arrangement) => {
            let mut inputs = VentilationInputs { arrangement: *arrangement, ..present.clone() };
            let lost = match inputs.can.place {
                CanPlace::None => false,
                CanPlace::BreatherLine => !inputs.has_breather(),
                CanPlace::ValveLine => !inputs.has_valve(),
            };
            if lost {
                inputs.can.place = CanPlace::None;
            }
            Some(inputs)
        }
    }
}

/// The project with the variant's inputs, checked; `None` where they are the project's own.
pub(super) fn project(project: &Project, variant: &Variant) -> Result<Option<Project>, Problems> {
    let Some(ventilation) = inputs(&project.ventilation, variant) else { return Ok(None) };
    let changed = Project { ventilation, ..project.clone() };
    changed.check()?;
    Ok(Some(changed))
}

/// The ventilation of a variant from the inputs [`project`] has put in.
pub(super) fn ventilation(inputs: &VentilationInputs, variant: &Variant) -> Result<Ventilation, Problems> {
    let mut ventilation = as_described::ventilation(inputs)?;
    match variant {
        Variant::ValveStuckShut => ventilation.valve_stuck = Some(Stuck::Shut),
        Variant::BreatherBlocked => ventilation.breather = None,
        Variant::Present | Variant::Arranged(_) | Variant::Other(_) => {}
    }
    Ok(ventilation)
}

impl Variant {
    /// The variants worth comparing with a ventilation: every other arrangement, and what may go wrong with this one.
    #[must_use]
    pub fn others(present: &VentilationInputs) -> Vec<Self> {
        use crate::study::Choice as _;
        let arranged = VentilationArrangement::ALL.iter().copied().filter(|one| *one != present.arrangement);
        let mut all: Vec<_> = arranged.map(Self::Arranged).collect();
        if present.has_valve() {
            all.push(Self::ValveStuckShut);
        }
        if present.has_breather() {
            all.push(Self::BreatherBlocked);
        }
        all
    }
}
