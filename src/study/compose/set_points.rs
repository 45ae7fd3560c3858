//! Thermostat settings side by side.

use super::context::Context;
use super::coolant::Side;
use super::moisture::Damp;
use super::oil_heat::Warmth;
use super::radiators::Radiators;
use super::thermal::{self, DutyHeat};
use super::{Fail, filled};
use crate::quantity::Measured;
use crate::quantity::si::ThermodynamicTemperature;
use crate::scribe::Silent;
use crate::study::{Duty, Problems, SetPointAnswers, SetPointDuty};

/// Settings closer together than this are one, K.
const SAME: f64 = 0.3;

/// Whether a setting is the one fitted.
pub(super) fn is_fitted(setting: ThermodynamicTemperature, fitted: ThermodynamicTemperature) -> bool {
    (setting.base() - fitted.base()).abs() < SAME
}

/// The settings commonly sold and the fitted one, cooler ones first.
pub(super) fn settings(fitted: ThermodynamicTemperature) -> Vec<ThermodynamicTemperature> {
    let mut settings: Vec<_> = crate::heat::SETTINGS.iter().map(|setting| setting.temperature()).collect();
    if !settings.iter().any(|setting| is_fitted(*setting, fitted)) {
        settings.push(fitted);
        settings.sort_by(|a, b| a.base().total_cmp(&b.base()));
    }
    settings
}

/// Every thermostat setting, cooler ones first: those commonly sold, and the fitted one.
pub(super) fn all(
    context: &Context<'_>,
    side: &Side<'_, '_>,
    radiators: &Radiators,
    heats: &[DutyHeat],
    ceiling: ThermodynamicTemperature,
    damp: &Damp<'_>,
    warmth: &Warmth<'_, '_>,
) -> Result<Vec<SetPointAnswers>, Problems> {
    let fitted = context.project.thermostat.set_point;
    let settings = settings(fitted);
    let mut table: Vec<Vec<thermal::SettingAt>> = Vec::with_capacity(5);
    for (duty, heat) in Duty::ALL.into_iter().zip(heats) {
        table.push(thermal::settings_at(context, radiators, &settings, duty, heat.heat.likely, ceiling)?);
    }
    let mut rows = Vec::with_capacity(settings.len());
    for (i, setting) in settings.iter().enumerate() {
        let mut duties = Vec::with_capacity(5);
        let mut hottest = ThermodynamicTemperature::from_base(0.0);
        let mut back = hottest;
        for ((duty, duty_settings), heat) in Duty::ALL.into_iter().zip(&table).zip(heats) {
            let Some(at) = duty_settings.get(i) else { continue };
            if at.reckoned > hottest {
                // The radiator's drop at the fitted setting is near enough for its mean temperature.
                let drop = heat.outlet.base() - heat.radiator_outlet.base();
                hottest = at.reckoned;
                back = ThermodynamicTemperature::from_base(hottest.base() - drop);
            }
            let parts = filled::parts_at(at.reckoned, heat.radiator_outlet);
            let system = side.system(&parts, &mut Silent)?;
            let margin = side.margin(at.reckoned, &system, &mut Silent)?;
            duties.push(SetPointDuty {
                outlet: at.outlet,
                opening: at.opening,
                radiator_rules: at.radiator_rules,
                fan: at.fan,
                oil: warmth.of(duty, at.reckoned, &mut Silent)?,
                margin: margin.low,
                road_speed: context.project.duty.of(duty).road_speed,
                holds_to: at.reserve.holds_to,
                boils_above: at.reserve.settles_to,
                spare: at.reserve.spare,
            });
        }
        let five: Result<[SetPointDuty; 5], _> = duties.try_into();
        let duties = five.map_err(|_| super::problem("duty", "there are not five duty points"))?;
        let held = side.held(&filled::parts_at(hottest, back), side.tank_temperature().likely, &mut Silent)?;
        let least = duties.iter().map(|duty| duty.margin.base()).fold(f64::INFINITY, f64::min);
        let expelled =
            context.mix.density(side.tank_temperature().likely, &mut Silent).fail("tank.tank_temperature")?;
        rows.push(SetPointAnswers {
            set_point: *setting,
            fitted: is_fitted(*setting, fitted),
            duties,
            hottest,
            in_tank: Measured::from_base(held.expelled.base() / expelled.base()),
            cold_mark: side.tank.height_at(side.cold_volume, &mut Silent).ok(),
            hot_mark: held.level,
            least_margin: Measured::from_base(least),
            moisture: damp.at_set_point(*setting),
            warm_up: warmth.warm_up(*setting, &mut Silent),
        });
    }
    Ok(rows)
}
