//! The bundled letters: two weights of one open-licence family that has every symbol the program writes.
//!
//! "Coldmark Sans" is a subset of Inter 4.1 (SIL Open Font License 1.1, text in `assets/fonts/OFL.txt`, made by
//! `assets/fonts/make_fonts.py`). Its figures are tabular: all digits are equally wide, so numbers line up.

use egui::{Context, FontData, FontDefinitions, FontFamily};
use std::sync::Arc;

/// The regular weight, as a TrueType file.
pub static REGULAR: &[u8] = include_bytes!("../../assets/fonts/ColdmarkSans-Regular.ttf");
/// The semibold weight, as a TrueType file.
pub static SEMIBOLD: &[u8] = include_bytes!("../../assets/fonts/ColdmarkSans-SemiBold.ttf");

/// Every symbol beyond plain letters and digits that the program writes somewhere. A test holds each against both faces.
pub const SYMBOLS_USED: &str = "°ΔηρṁṅẋQ̇V̇₀₁₂₃₄₅₆₇₈₉⁰¹²³⁴⁵⁶⁷⁸⁹⁻₊ₐₑₕₖₗₘₙₒₚₛₜᵢⱼᵣᵤᵥₓʲ→←↑↓↔⇒≤≥≠≈±·×÷−–—…‘’“”′″µμαβγδεζθκλνξπρστφϕχψω\
                                ΓΘΛΞΠΣΦΨΩ√∫∂∑∏½¼¾⅛⅜⅝⅞⅓⅔∞∆▸▾▴◂✓✗•‰ℓ℃℉º²³%§";

/// The name of the semibold family in egui.
const STRONG: &str = "strong";

/// The family for headings and for numbers that matter.
#[must_use]
pub fn strong_family() -> FontFamily {
    FontFamily::Name(STRONG.into())
}

/// The bundled faces alone, without a fallback.
#[must_use]
pub fn bundled() -> FontDefinitions {
    with_faces(FontDefinitions::empty())
}

/// The bundled faces first; whatever egui brings with it stands behind them for text a person pastes.
fn with_faces(mut definitions: FontDefinitions) -> FontDefinitions {
    let behind: Vec<String> = definitions.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    for (name, bytes) in [("coldmark-regular", REGULAR), ("coldmark-semibold", SEMIBOLD)] {
        definitions.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    for (family, face) in [
        (FontFamily::Proportional, "coldmark-regular"),
        // The figures are tabular already, so a second, fixed-pitch design is not needed.
        (FontFamily::Monospace, "coldmark-regular"),
        (strong_family(), "coldmark-semibold"),
    ] {
        let faces = std::iter::once(face.to_owned()).chain(behind.iter().cloned()).collect();
        definitions.families.insert(family, faces);
    }
    definitions
}

/// Makes the bundled faces the program's letters. Call once, before the first frame.
pub fn install(ctx: &Context) {
    ctx.set_fonts(with_faces(FontDefinitions::default()));
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::FontId;
    use egui::epaint::text::{Fonts, TextOptions};

    fn both_faces(mut check: impl FnMut(&mut egui::epaint::text::FontsView<'_>, &FontId)) {
        let mut fonts = Fonts::new(TextOptions::default(), bundled());
        for family in [FontFamily::Proportional, strong_family()] {
            check(&mut fonts.with_pixels_per_point(1.0), &FontId::new(14.0, family));
        }
    }

    #[test]
    fn every_symbol_has_a_glyph() {
        both_faces(|fonts, font| {
            for symbol in SYMBOLS_USED.chars() {
                assert!(fonts.has_glyph(font, symbol), "{font:?} lacks '{symbol}' U+{:04X}", symbol as u32);
            }
            assert!(!fonts.has_glyph(font, '漢'), "a face that has everything proves nothing");
        });
    }

    #[test]
    fn digits_are_equally_wide() {
        both_faces(|fonts, font| {
            let widths: Vec<f32> = ('0'..='9').map(|digit| fonts.glyph_width(font, digit)).collect();
            assert!(widths[0] > 5.0);
            assert!(widths.iter().all(|width| *width == widths[0]), "{widths:?}");
        });
    }
}
