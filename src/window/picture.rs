//! A picture of the window, taken unattended.

use super::run::WindowError;
use egui::{ColorImage, Context, ViewportCommand};
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Frames painted after the answers are in, so that sizes and hover have settled.
const SETTLING: u32 = 4;
/// A picture without answers beats none.
const PATIENCE: Duration = Duration::from_secs(60);

/// Waits for the answers, takes the picture, and closes the window.
pub(super) struct Taking {
    /// The PNG file to write.
    path: PathBuf,
    outcome: Arc<Mutex<Result<(), WindowError>>>,
    begun: Instant,
    settled: u32,
}

impl Taking {
    pub(super) fn new(path: PathBuf, outcome: Arc<Mutex<Result<(), WindowError>>>) -> Self {
        Self { path, outcome, begun: Instant::now(), settled: 0 }
    }

    /// Called after each frame.
    pub(super) fn watch(&mut self, ctx: &Context, complete: bool) {
        ctx.request_repaint_after(Duration::from_millis(30));
        if complete || self.begun.elapsed() > PATIENCE {
            self.settled += 1;
        }
        if self.settled != SETTLING {
            return;
        }
        let path = self.path.clone();
        let outcome = Arc::clone(&self.outcome);
        let window = ctx.clone();
        ctx.request_screenshot(move |image| {
            let written =
                write(&path, &image).map_err(|cause| WindowError::Picture { path: path.display().to_string(), cause });
            *outcome.lock().unwrap_or_else(PoisonError::into_inner) = written;
            window.send_viewport_cmd(ViewportCommand::Close);
            window.request_repaint();
        });
    }
}

fn write(path: &Path, image: &ColorImage) -> Result<(), String> {
    let [width, height] = image.size.map(u32::try_from);
    let (Ok(width), Ok(height)) = (width, height) else { return Err("the picture is too large".to_owned()) };
    let file = File::create(path).map_err(|error| error.to_string())?;
    let mut encoder = png::Encoder::new(BufWriter::new(file), width, height);
    // The window is opaque, so the fourth channel says nothing.
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let pixels: Vec<u8> = image.pixels.iter().flat_map(|pixel| [pixel.r(), pixel.g(), pixel.b()]).collect();
    let mut writer = encoder.write_header().map_err(|error| error.to_string())?;
    writer.write_image_data(&pixels).map_err(|error| error.to_string())?;
    writer.finish().map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::Color32;

    #[test]
    fn a_picture_reads_back_pixel_for_pixel() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("small.png");
        let image = ColorImage::new([2, 1], vec![Color32::from_rgb(1, 2, 3), Color32::from_rgb(250, 0, 9)]);
        write(&path, &image).unwrap();
        let decoder = png::Decoder::new(std::io::BufReader::new(File::open(&path).unwrap()));
        let mut reader = decoder.read_info().unwrap();
        let mut pixels = vec![0; 6];
        reader.next_frame(&mut pixels).unwrap();
        assert_eq!(pixels, [1, 2, 3, 250, 0, 9]);
        assert!(write(&folder.path().join("no").join("folder.png"), &image).is_err());
    }
}
