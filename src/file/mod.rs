//! Project files: versioned TOML that a person can read, written so that a failure never costs the old file.
//!
//! Reading and writing are two visitors over the inputs of a [`Project`], so a file knows no input by itself. Every
//! quantity carries its unit and every fault its line. [`presets`] are parts of a project under a generic name,
//! [`demo`] is an invented car.

mod inputs;
mod preset;
mod read;
mod write;

pub use preset::{Preset, PresetLine, PresetPart, PresetSource, Presets, demo, presets, presets_in};
pub use read::{FORMAT, FORMAT_KEY, read_project};
pub use write::write_project;

use crate::quantity::UnitSystem;
use crate::study::Project;
use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};

/// One fault of a file: where it stands and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The line, counted from one; `None` where a whole part is missing.
    pub line: Option<usize>,
    /// The path of the input: `tank.vent_diameter`.
    pub path: String,
    /// The sentence a person reads.
    pub message: String,
}

impl std::fmt::Display for FileFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        f.write_str(&self.message)
    }
}

/// Why a file could not be opened or saved.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The system refused.
    #[error("cannot {act} {path}: {}", plainly(act, cause))]
    System {
        /// "read" or "write".
        act: &'static str,
        /// The file.
        path: String,
        /// What the system said.
        cause: std::io::Error,
    },
    /// There is something else at this path: a folder, a device.
    #[error("cannot {act} {path}: it is not a file but a folder or a device; name a file")]
    NoFile {
        /// "read" or "write".
        act: &'static str,
        /// The path.
        path: String,
    },
    /// The file may not be written over.
    #[error("cannot write {path}: it is protected against writing. It was left as it is; save under another name")]
    Protected {
        /// The file.
        path: String,
    },
    /// The file is too large to be a project.
    #[error("{path} is {size} bytes long; a project file has a few thousand. It was not read")]
    TooLarge {
        /// The file.
        path: String,
        /// Its size in bytes.
        size: u64,
    },
    /// The file has faults.
    #[error("{path} has {}:\n{}", counted(.faults), list(.faults))]
    Faults {
        /// The file.
        path: String,
        /// All of them.
        faults: Vec<FileFault>,
    },
    /// The project has faults, so that the file could not be opened again.
    #[error("{path} was not written, since it could not be opened again. Mend {} first:\n{}", counted(.faults), list(.faults))]
    Unsound {
        /// The file.
        path: String,
        /// All of them; the lines are those of the file that was not written.
        faults: Vec<FileFault>,
    },
}

/// What the system said, in plain words where the way out is known.
fn plainly(act: &str, cause: &std::io::Error) -> String {
    use std::io::ErrorKind;
    match cause.kind() {
        ErrorKind::NotFound if act == "read" => "there is no such file; mind the spelling and the folder".to_owned(),
        ErrorKind::NotFound => "there is no such folder; make it first or name another".to_owned(),
        ErrorKind::NotADirectory => "what stands before the last name is a file, not a folder".to_owned(),
        ErrorKind::PermissionDenied => {
            "you may not do that there; choose a folder of your own or change its rights".to_owned()
        }
        ErrorKind::StorageFull => "the disk is full; make room or choose another".to_owned(),
        _ => cause.to_string(),
    }
}

fn counted(faults: &[FileFault]) -> String {
    match faults.len() {
        1 => "1 fault".to_owned(),
        many => format!("{many} faults"),
    }
}

fn list(faults: &[FileFault]) -> String {
    faults.iter().map(|fault| format!("  {fault}")).collect::<Vec<_>>().join("\n")
}

const LARGEST: u64 = 1 << 20;

/// Opens a project file.
///
/// # Errors
/// When it cannot be read, is far too large, or has faults (all of them are given).
pub fn open(path: &Path) -> Result<Project, FileError> {
    let text = text_of(path)?;
    read_project(&text).map_err(|faults| FileError::Faults { path: path.display().to_string(), faults })
}

/// The text of a file that may be a project or a preset.
fn text_of(path: &Path) -> Result<String, FileError> {
    let shown = || path.display().to_string();
    let system = |cause| FileError::System { act: "read", path: shown(), cause };
    let about = std::fs::metadata(path).map_err(system)?;
    if !about.is_file() {
        return Err(FileError::NoFile { act: "read", path: shown() });
    }
    if about.len() > LARGEST {
        return Err(FileError::TooLarge { path: shown(), size: about.len() });
    }
    // The file may grow while it is read.
    let mut bytes = Vec::new();
    std::fs::File::open(path).map_err(system)?.take(LARGEST).read_to_end(&mut bytes).map_err(system)?;
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = error.as_bytes().iter().take(good).filter(|&&byte| byte == b'\n').count() + 1;
        let message = "this is not text in UTF-8; save the file as UTF-8 in an editor".to_owned();
        let fault = FileFault { line: Some(line), path: String::new(), message };
        FileError::Faults { path: shown(), faults: vec![fault] }
    })
}

/// Saves a project: written whole beside the target, forced to disk, then moved over it, so that the old file
/// stays intact if anything fails. A link is followed: the file it leads to is replaced, not the link.
///
/// # Errors
/// When the project has faults, the target is protected or no file, or the folder cannot be written.
pub fn save(project: &Project, path: &Path, units: UnitSystem) -> Result<(), FileError> {
    let shown = || path.display().to_string();
    let system = |cause| FileError::System { act: "write", path: shown(), cause };
    let text = write_project(project, units);
    if let Err(faults) = read_project(&text) {
        return Err(FileError::Unsound { path: shown(), faults });
    }
    let target = behind_links(path).map_err(system)?;
    let old = match std::fs::metadata(&target) {
        Ok(old) if !old.is_file() => return Err(FileError::NoFile { act: "write", path: shown() }),
        Ok(old) if old.permissions().readonly() => return Err(FileError::Protected { path: shown() }),
        Ok(old) => Some(old),
        Err(cause) if cause.kind() == std::io::ErrorKind::NotFound => None,
        Err(cause) => return Err(system(cause)),
    };
    let folder = match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    // If anything fails from here on, the file beside is removed as it goes out of scope.
    let mut beside = tempfile::Builder::new().prefix(".coldmark-").tempfile_in(folder).map_err(system)?;
    beside.write_all(text.as_bytes()).map_err(system)?;
    // A new file is private by default; keep the permissions of the one it replaces, else those of a usual file.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = old.map_or(0o644, |old| old.permissions().mode());
        beside.as_file().set_permissions(std::fs::Permissions::from_mode(mode)).map_err(system)?;
    }
    #[cfg(not(unix))]
    drop(old);
    beside.as_file().sync_all().map_err(system)?;
    beside.persist(&target).map_err(|error| system(error.error))?;
    // The move itself lasts once the folder is on disk too. The file is whole either way, so this may fail.
    #[cfg(unix)]
    let _ = std::fs::File::open(folder).and_then(|folder| folder.sync_all());
    Ok(())
}

/// The path a chain of links leads to, whether or not a file is there yet.
fn behind_links(path: &Path) -> std::io::Result<PathBuf> {
    const MOST: usize = 32;
    let mut target = path.to_path_buf();
    for _ in 0..MOST {
        match std::fs::symlink_metadata(&target) {
            Ok(about) if about.is_symlink() => {
                let link = std::fs::read_link(&target)?;
                // A relative link is meant from the folder it lies in; an absolute one replaces the whole path.
                target = target.parent().map(|folder| folder.join(&link)).unwrap_or(link);
            }
            _ => return Ok(target),
        }
    }
    Err(std::io::Error::other("the links lead in a circle"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_project_reads_back_the_same() {
        let mut project = Project::blank();
        project.title = "quotes \" and \\ and\nlines".to_owned();
        project.circuit.knowledge = crate::study::VolumeKnowledge::BuiltUp;
        project.circuit.hoses.push(Default::default());
        project.circuit.trapped_air =
            crate::quantity::parse_estimate("0.1 L (0 to 0.5 L)", crate::quantity::Kind::Volume, None).ok();
        project.blow_by.leak_down = vec![crate::quantity::Measured::from_base(0.05); 8];
        project.tank.shape = crate::study::ShapeKind::DipTable;
        for units in [UnitSystem::Si, UnitSystem::Us] {
            let text = write_project(&project, units);
            let read = read_project(&text).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"));
            assert_eq!(write_project(&read, units), text);
            assert_eq!(read.tank.dips, project.tank.dips);
            assert_eq!(read.title, project.title);
            assert_eq!(read.circuit, project.circuit);
        }
    }
}
