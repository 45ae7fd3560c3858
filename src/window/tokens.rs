//! The design tokens: every colour, size, space and line weight of the window, for light and for dark.
//!
//! The verdict colours are bluish green, orange and vermillion of the palette of Masataka Okabe and Kei Ito, "Color
//! Universal Design: How to make figures and presentations that are friendly to colorblind people" (2008), figures
//! quoted from memory; colour never stands alone, a shape and a word go with it. Text contrast follows the Web Content
//! Accessibility Guidelines 2.1, success criterion 1.4.3: 4.5 to 1 or more; a test holds both themes to it.

use egui::{
    Color32, Context, CornerRadius, FontFamily, FontId, Margin, Shadow, Stroke, TextStyle, Theme, Visuals, vec2,
};

/// The colours of one theme.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tokens {
    /// Whether this is the dark theme.
    pub dark: bool,
    /// The ground of the drawing and of every view.
    pub paper: Color32,
    /// The ground of inspectors and bars beside the drawing.
    pub panel: Color32,
    /// The ground of a card, an input box, a plot.
    pub card: Color32,
    /// Text and the drawing's outlines.
    pub ink: Color32,
    /// Secondary text: labels, hints, axis names.
    pub quiet: Color32,
    /// Hairlines: frames, separators, grids.
    pub line: Color32,
    /// Coolant, in lines and in words.
    pub coolant: Color32,
    /// A coolant-filled area, light enough to write on.
    pub coolant_wash: Color32,
    /// Crankcase gas, in lines and in words.
    pub gas: Color32,
    /// A gas-filled area, light enough to write on.
    pub gas_wash: Color32,
    /// The hot end of anything.
    pub hot: Color32,
    /// The cold end of anything.
    pub cold: Color32,
    /// The mark of a verdict that holds.
    pub holds: Color32,
    /// The mark of a verdict that holds by little.
    pub thin: Color32,
    /// The mark of a verdict that does not hold.
    pub fails: Color32,
    /// The mark of a verdict that cannot be given.
    pub unknown: Color32,
    /// Words about a wrong input.
    pub fault: Color32,
    /// The ground of a caution.
    pub caution: Color32,
    /// The edge of a caution and its mark.
    pub caution_edge: Color32,
    /// What is chosen: the ground of the pressed segment.
    pub chosen: Color32,
    /// Text on what is chosen.
    pub on_chosen: Color32,
    /// The ring round whatever has the keyboard.
    pub focus: Color32,
}

/// Line weights in points: a technical illustration needs only these.
pub mod weight {
    /// Frames, grids, leader lines.
    pub const THIN: f32 = 1.0;
    /// Outlines of parts, curves.
    pub const MEDIUM: f32 = 1.75;
    /// Hoses' walls, the focus ring, what matters most.
    pub const THICK: f32 = 3.0;
}

/// Spaces in points.
pub mod space {
    /// Between things that belong together.
    pub const TIGHT: f32 = 4.0;
    /// Between rows.
    pub const ROW: f32 = 8.0;
    /// Inside cards.
    pub const CARD: f32 = 12.0;
    /// Between groups.
    pub const GROUP: f32 = 20.0;
}

/// Sizes in points.
pub mod size {
    /// Hints, axis numbers, sources.
    pub const SMALL: f32 = 12.0;
    /// Everything else.
    pub const BODY: f32 = 14.0;
    /// A part's or a card's title.
    pub const TITLE: f32 = 17.0;
    /// The name of a view, a number that is the answer.
    pub const LARGE: f32 = 22.0;
    /// The height of an input box.
    pub const BOX: f32 = 26.0;
    /// The column of labels before input boxes.
    pub const LABEL: f32 = 148.0;
    /// An input box for one quantity.
    pub const FIELD: f32 = 118.0;
    /// The mark of a verdict or a caution.
    pub const MARK: f32 = 14.0;
    /// The rounding of cards and boxes.
    pub const ROUND: u8 = 5;
}

const fn rgb(hex: u32) -> Color32 {
    let [_, red, green, blue] = hex.to_be_bytes();
    Color32::from_rgb(red, green, blue)
}

// Okabe and Ito (2008).
const BLUISH_GREEN: Color32 = rgb(0x00_9E_73);
const ORANGE: Color32 = rgb(0xE6_9F_00);
const VERMILLION: Color32 = rgb(0xD5_5E_00);

/// Warm white paper and dark ink.
pub static LIGHT: Tokens = Tokens {
    dark: false,
    paper: rgb(0xFB_FA_F6),
    panel: rgb(0xF2_F0_EB),
    card: rgb(0xFF_FF_FF),
    ink: rgb(0x1F_2A_30),
    quiet: rgb(0x58_63_6A),
    line: rgb(0xCB_CF_CF),
    coolant: rgb(0x00_64_9E),
    coolant_wash: rgb(0xDA_E8_F1),
    gas: rgb(0x75_59_2A),
    gas_wash: rgb(0xF4_EE_E0),
    hot: rgb(0xB0_46_00),
    cold: rgb(0x00_64_9E),
    holds: BLUISH_GREEN,
    thin: ORANGE,
    fails: VERMILLION,
    unknown: rgb(0x6E_78_7E),
    fault: rgb(0xA3_3F_00),
    caution: rgb(0xFE_F3_DC),
    caution_edge: ORANGE,
    chosen: rgb(0x24_33_3B),
    on_chosen: rgb(0xFF_FF_FF),
    focus: rgb(0x00_64_9E),
};

/// A quiet dark.
pub static DARK: Tokens = Tokens {
    dark: true,
    paper: rgb(0x15_19_1C),
    panel: rgb(0x1B_20_24),
    card: rgb(0x22_29_2E),
    ink: rgb(0xE6_E9_E8),
    quiet: rgb(0xA6_B0_B5),
    line: rgb(0x3D_47_4D),
    coolant: rgb(0x6B_BD_EC),
    coolant_wash: rgb(0x17_35_47),
    gas: rgb(0xD8_B4_72),
    gas_wash: rgb(0x35_2D_1D),
    hot: rgb(0xF2_92_55),
    cold: rgb(0x6B_BD_EC),
    holds: BLUISH_GREEN,
    thin: ORANGE,
    fails: VERMILLION,
    unknown: rgb(0x8B_96_9C),
    fault: rgb(0xFF_A0_6B),
    caution: rgb(0x35_2B_12),
    caution_edge: ORANGE,
    chosen: rgb(0xDD_E4_E6),
    on_chosen: rgb(0x15_19_1C),
    focus: rgb(0x6B_BD_EC),
};

impl Tokens {
    /// The tokens of a theme.
    #[must_use]
    pub fn of(dark: bool) -> &'static Self {
        if dark { &DARK } else { &LIGHT }
    }

    /// The tokens of the theme a part of the window is drawn in.
    #[must_use]
    pub fn here(ui: &egui::Ui) -> &'static Self {
        Self::of(ui.visuals().dark_mode)
    }

    /// A hairline in the quiet line colour.
    #[must_use]
    pub fn hairline(&self) -> Stroke {
        Stroke::new(weight::THIN, self.line)
    }

    /// A part's outline.
    #[must_use]
    pub fn outline(&self) -> Stroke {
        Stroke::new(weight::MEDIUM, self.ink)
    }

    fn visuals(&self) -> Visuals {
        let mut visuals = if self.dark { Visuals::dark() } else { Visuals::light() };
        visuals.weak_text_color = Some(self.quiet);
        visuals.hyperlink_color = self.coolant;
        visuals.faint_bg_color = self.panel;
        visuals.extreme_bg_color = self.card;
        visuals.text_edit_bg_color = Some(self.card);
        visuals.code_bg_color = self.panel;
        visuals.warn_fg_color = self.fault;
        visuals.error_fg_color = self.fault;
        visuals.window_fill = self.paper;
        visuals.panel_fill = self.paper;
        visuals.window_stroke = self.hairline();
        visuals.window_shadow = Shadow::NONE;
        visuals.popup_shadow = Shadow { offset: [0, 3], blur: 10, spread: 0, color: Color32::from_black_alpha(40) };
        visuals.selection.bg_fill = if self.dark { rgb(0x16_3A_50) } else { rgb(0xD6_E8_F4) };
        visuals.selection.stroke = Stroke::new(weight::MEDIUM, self.focus);
        visuals.text_cursor.stroke = Stroke::new(weight::MEDIUM, self.focus);
        visuals.indent_has_left_vline = false;
        let round = CornerRadius::same(size::ROUND);
        visuals.window_corner_radius = round;
        visuals.menu_corner_radius = round;
        let states = [
            (&mut visuals.widgets.noninteractive, self.paper, self.hairline(), self.ink),
            (&mut visuals.widgets.inactive, self.card, self.hairline(), self.ink),
            (&mut visuals.widgets.hovered, self.panel, Stroke::new(weight::THIN, self.quiet), self.ink),
            (&mut visuals.widgets.active, self.panel, Stroke::new(weight::MEDIUM, self.focus), self.ink),
            (&mut visuals.widgets.open, self.panel, Stroke::new(weight::THIN, self.quiet), self.ink),
        ];
        for (state, fill, edge, text) in states {
            state.bg_fill = fill;
            state.weak_bg_fill = fill;
            state.bg_stroke = edge;
            state.fg_stroke = Stroke::new(weight::THIN, text);
            state.corner_radius = round;
            state.expansion = 0.0;
        }
        visuals
    }
}

/// Sets both themes' colours, spaces and letter sizes. Call once, after [`super::fonts::install`].
pub fn apply(ctx: &Context) {
    ctx.set_visuals_of(Theme::Light, LIGHT.visuals());
    ctx.set_visuals_of(Theme::Dark, DARK.visuals());
    ctx.all_styles_mut(|style| {
        let plain = |points| FontId::new(points, FontFamily::Proportional);
        style.text_styles = [
            (TextStyle::Small, plain(size::SMALL)),
            (TextStyle::Body, plain(size::BODY)),
            (TextStyle::Button, plain(size::BODY)),
            (TextStyle::Monospace, plain(size::BODY)),
            (TextStyle::Heading, FontId::new(size::TITLE, super::fonts::strong_family())),
        ]
        .into();
        style.spacing.item_spacing = vec2(space::ROW, space::ROW);
        style.spacing.button_padding = vec2(10.0, 4.0);
        style.spacing.interact_size = vec2(size::BOX, size::BOX);
        style.spacing.combo_width = size::FIELD;
        style.spacing.text_edit_width = size::FIELD;
        style.spacing.menu_margin = Margin::same(6);
        style.spacing.tooltip_width = 360.0;
        style.spacing.icon_width = 16.0;
        // Text in cards and working can be marked and copied; labels of inputs should not get in the way of clicks.
        style.interaction.selectable_labels = false;
    });
}

/// The contrast of two opaque colours: (lighter + 0.05) / (darker + 0.05) of their relative luminances, 1 to 21.
///
/// Web Content Accessibility Guidelines 2.1, definitions "contrast ratio" and "relative luminance".
#[must_use]
pub fn contrast(one: Color32, other: Color32) -> f32 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn luminance(colour: Color32) -> f32 {
    let linear = |channel: u8| {
        let value = f32::from(channel) / 255.0;
        if value <= 0.03928 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour.r()) + 0.7152 * linear(colour.g()) + 0.0722 * linear(colour.b())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contrast_follows_the_guideline() {
        // The guideline's own ends, and the grey known as the lightest that passes on white.
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-4);
        assert_eq!(contrast(Color32::WHITE, Color32::WHITE), 1.0);
        assert!(contrast(rgb(0x76_76_76), Color32::WHITE) >= 4.5);
        assert!(contrast(rgb(0x77_77_77), Color32::WHITE) < 4.5);
    }

    #[test]
    fn text_can_be_read_in_both_themes() {
        for tokens in [&LIGHT, &DARK] {
            let texts = [
                ("ink", tokens.ink),
                ("quiet", tokens.quiet),
                ("coolant", tokens.coolant),
                ("gas", tokens.gas),
                ("hot", tokens.hot),
                ("cold", tokens.cold),
                ("fault", tokens.fault),
            ];
            for (name, text) in texts {
                for (ground, fill) in [("paper", tokens.paper), ("panel", tokens.panel), ("card", tokens.card)] {
                    let ratio = contrast(text, fill);
                    assert!(ratio >= 4.5, "{name} on {ground}, dark {}: {ratio}", tokens.dark);
                }
            }
            for (name, fill) in [
                ("caution", tokens.caution),
                ("coolant_wash", tokens.coolant_wash),
                ("gas_wash", tokens.gas_wash),
                ("selection", tokens.visuals().selection.bg_fill),
            ] {
                assert!(contrast(tokens.ink, fill) >= 4.5, "ink on {name}, dark {}", tokens.dark);
            }
            assert!(contrast(tokens.on_chosen, tokens.chosen) >= 4.5);
            // egui writes what is selected in a list in the colour of the selection's ring.
            let selection = tokens.visuals().selection;
            assert!(contrast(selection.stroke.color, selection.bg_fill) >= 4.5);
            assert!(contrast(tokens.quiet, tokens.caution) >= 4.5);
        }
    }

    #[test]
    fn the_focus_ring_stands_out() {
        // Success criterion 1.4.11: 3 to 1 for what is not text.
        for tokens in [&LIGHT, &DARK] {
            for fill in [tokens.paper, tokens.panel, tokens.card] {
                assert!(contrast(tokens.focus, fill) >= 3.0);
                assert!(contrast(tokens.unknown, fill) >= 3.0);
            }
        }
    }
}
