//! One frame: keys, panels, dialogs, then everything asked for.

use super::{App, Command, Next};
use crate::window::tokens::{Tokens, space};
use crate::window::{bar, dialog, inspector, scene, strip};
use egui::{CentralPanel, Frame, Margin, Panel, Sense, Theme, Ui, UiBuilder, ViewportCommand};
use std::time::Duration;

impl App {
    /// Draws one frame and does what was asked for in it.
    pub fn show(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        let now = ctx.input(|input| input.time);
        let theme = if self.view.dark { Theme::Dark } else { Theme::Light };
        if ctx.theme() != theme {
            ctx.set_theme(theme);
            ctx.request_repaint();
        }
        self.read_keys(&ctx);
        self.take_dropped(&ctx);
        self.watch_closing(&ctx);
        self.answering.keep_up(self.document.version(), self.document.project(), now);
        let through_day = self.view.through_day;
        if through_day {
            self.answering.follow_day(self.document.project(), now);
        }

        let tokens = Tokens::here(ui);
        // At 200 % on a small screen there are few points; the drawing keeps the larger share of them.
        let (whole, high) = (ui.available_width(), ui.available_height());
        let beside = if whole < 900.0 { 0.5 } else { 0.62 };
        let ground = |fill, margin: Margin| Frame::new().fill(fill).inner_margin(margin);
        let wide = Margin::symmetric(14, 8);
        Panel::top("bar").frame(ground(tokens.paper, wide)).show(ui, |ui| bar::show(ui, self));
        Panel::top("moments").frame(ground(tokens.paper, wide)).show(ui, |ui| bar::moments(ui, self, now));
        // A day needs the height for its plots, and the width; each view keeps the sizes a person gave it.
        let (below, aside) = if through_day { ("verdicts of the day", "the day") } else { ("verdicts", "inspector") };
        let strip = if through_day { (high * 0.15).clamp(96.0, 150.0) } else { (high * 0.26).clamp(96.0, 230.0) };
        let panel = if through_day { (whole * 0.3).clamp(300.0, 444.0) } else { 444.0 };
        Panel::bottom(below)
            .resizable(true)
            .default_size(strip)
            .size_range(64.0..=(high * 0.45).max(65.0))
            .frame(ground(tokens.paper, wide))
            .show(ui, |ui| strip::show(ui, self, now));
        Panel::right(aside)
            .resizable(true)
            .default_size(panel)
            .size_range(300.0..=(whole * beside).max(301.0))
            .frame(ground(tokens.panel, Margin { left: 14, right: 4, top: 10, bottom: 4 }))
            .show(ui, |ui| {
                // The panel keeps its width whatever stands in it; the drawing must not be pushed aside.
                let room = ui.available_rect_before_wrap();
                let mut inside = ui.new_child(UiBuilder::new().max_rect(room));
                inside.set_clip_rect(room.intersect(ui.clip_rect()));
                inspector::show(&mut inside, self, now);
                ui.allocate_rect(room, Sense::hover());
            });
        CentralPanel::default()
            .frame(ground(tokens.paper, Margin::same(space::ROW as i8)))
            .show(ui, |ui| scene::show(ui, self, now));
        dialog::show(&ctx, self);

        self.carry_out(&ctx);
        self.keep_unsaved();
        self.name_window(&ctx);
        let late = self.answering.waits() && !self.answering.is_stale(now);
        if late || (self.answering.waits_for_day() && !self.answering.is_day_stale(now)) {
            // The worker wakes the window when it is done; this is for the greying alone.
            ctx.request_repaint_after(Duration::from_secs_f64(super::answering::GREY_AFTER));
        }
    }

    /// A file dropped on the window is opened.
    fn take_dropped(&mut self, ctx: &egui::Context) {
        let dropped = ctx.input(|input| input.raw.dropped_files.clone());
        if let Some(path) = dropped.first().map(|file| file.path().to_owned())
            && self.dialog.is_none()
        {
            self.command(Command::Open(path));
        }
    }

    /// Unsaved work holds the window open until the person has decided.
    fn watch_closing(&mut self, ctx: &egui::Context) {
        if ctx.input(|input| input.viewport().close_requested()) && !self.may_close && self.is_unsaved() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.unless_unsaved(Next::Leave, ctx);
        }
    }

    /// Every change is kept against a crash until it is saved.
    fn keep_unsaved(&mut self) {
        if self.kept != self.document.version() {
            self.kept = self.document.version();
            if self.is_unsaved() {
                self.home.keep_unsaved(self.document.project(), self.view.units);
            } else {
                self.home.forget_unsaved();
            }
        }
    }

    fn name_window(&mut self, ctx: &egui::Context) {
        let mark = if self.is_unsaved() { "• " } else { "" };
        let title = format!("{mark}{} – Coldmark", self.document.name());
        if title != self.window_title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.window_title = title;
        }
    }
}
