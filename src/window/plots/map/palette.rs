//! The colours of the field: blue below the air's pressure, orange above it, the plot's own ground between.
//!
//! Lightness and chroma go evenly from the ground to either end in Oklab, a colour space of even perceived differences
//! (published 2020; the numbers quoted from memory). Blue and orange differ by the yellow-blue axis, which red-green colour
//! blindness leaves, and by lightness from the ground either way. Colour never stands alone: the lines carry the meaning,
//! the readout the numbers.

use crate::window::tokens::Tokens;
use egui::Color32;

/// Hue of the ends, radians in the plane of green-red and blue-yellow.
const BELOW: f32 = 4.45;
const ABOVE: f32 = 1.05;

/// The colour of a share of the span, −1 at the deepest to 1 at the highest.
pub(super) fn colour(share: f32, tokens: &Tokens) -> Color32 {
    let share = if share.is_finite() { share.clamp(-1.0, 1.0) } else { 0.0 };
    let (ground, end, chroma) = if tokens.dark { (0.27, 0.72, 0.13) } else { (0.97, 0.60, 0.13) };
    let away = share.abs();
    let hue = if share < 0.0 { BELOW } else { ABOVE };
    let strength = away * chroma;
    from_oklab(ground + away * (end - ground), strength * hue.cos(), strength * hue.sin())
}

fn from_oklab(lightness: f32, a: f32, b: f32) -> Color32 {
    let cube = |value: f32| value * value * value;
    let long = cube(lightness + 0.396_337_78 * a + 0.215_803_76 * b);
    let middle = cube(lightness - 0.105_561_346 * a - 0.063_854_17 * b);
    let short = cube(lightness - 0.089_484_18 * a - 1.291_485_5 * b);
    let channel = |linear: f32| {
        let linear = linear.clamp(0.0, 1.0);
        let shown = if linear <= 0.003_130_8 { 12.92 * linear } else { 1.055 * linear.powf(1.0 / 2.4) - 0.055 };
        (shown * 255.0).round() as u8
    };
    Color32::from_rgb(
        channel(4.076_741_7 * long - 3.307_711_6 * middle + 0.230_969_94 * short),
        channel(-1.268_438 * long + 2.609_757_4 * middle - 0.341_319_4 * short),
        channel(-0.004_196_086_3 * long - 0.703_418_6 * middle + 1.707_614_7 * short),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::tokens::{DARK, LIGHT};

    /// sRGB to Oklab, the way back.
    fn oklab(colour: Color32) -> [f32; 3] {
        let linear = |channel: u8| {
            let value = f32::from(channel) / 255.0;
            if value <= 0.040_45 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        let [r, g, b] = [colour.r(), colour.g(), colour.b()].map(linear);
        let long = (0.412_221_46 * r + 0.536_332_55 * g + 0.051_445_995 * b).cbrt();
        let middle = (0.211_903_5 * r + 0.680_699_5 * g + 0.107_396_96 * b).cbrt();
        let short = (0.088_302_46 * r + 0.281_718_85 * g + 0.629_978_7 * b).cbrt();
        [
            0.210_454_26 * long + 0.793_617_8 * middle - 0.004_072_047 * short,
            1.977_998_5 * long - 2.428_592_2 * middle + 0.450_593_7 * short,
            0.025_904_037 * long + 0.782_771_77 * middle - 0.808_675_77 * short,
        ]
    }

    #[test]
    fn steps_are_even_and_the_ends_stay_apart_without_red_and_green() {
        for tokens in [&LIGHT, &DARK] {
            for side in [-1.0, 1.0] {
                let colours: Vec<[f32; 3]> = (0..=10).map(|i| oklab(colour(side * i as f32 / 10.0, tokens))).collect();
                let steps: Vec<f32> = colours
                    .windows(2)
                    .map(|p| (0..3).map(|i| (p[1][i] - p[0][i]).powi(2)).sum::<f32>().sqrt())
                    .collect();
                let (least, most) = steps.iter().fold((f32::MAX, 0.0_f32), |(a, b), step| (a.min(*step), b.max(*step)));
                // Even but for the rounding to whole channels: nothing is cut off at the edge of what a screen shows.
                assert!(most / least < 1.25, "dark {}: {steps:?}", tokens.dark);
                // Lightness alone orders either side.
                let rises = tokens.dark;
                assert!(colours.windows(2).all(|p| (p[1][0] > p[0][0]) == rises));
            }
            let [below, above] = [-1.0, 1.0].map(|share| oklab(colour(share, tokens)));
            assert!(above[2] - below[2] > 0.2, "{below:?} {above:?}");
        }
        assert_eq!(colour(f32::NAN, &LIGHT), colour(0.0, &LIGHT));
        assert_eq!(colour(7.0, &LIGHT), colour(1.0, &LIGHT));
    }
}
