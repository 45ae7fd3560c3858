//! Saving never costs the old file, and leaves nothing behind.

use crate::recorder::record;
use coldmark::file::{FileError, demo, open, save};
use coldmark::quantity::{Measured, UnitSystem};
use coldmark::study::Project;
use std::fs;
use std::path::{Path, PathBuf};

/// A folder with one saved project.
fn saved() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.toml");
    save(&demo(), &path, UnitSystem::Si).unwrap();
    (folder, path)
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn other() -> Project {
    let mut project = demo();
    project.title = "Another car".to_owned();
    project
}

#[test]
fn saves_and_opens_again_in_both_unit_systems() {
    let (folder, path) = saved();
    assert_eq!(record(&open(&path).unwrap()), record(&demo()));
    save(&other(), &path, UnitSystem::Us).unwrap();
    assert!(fs::read_to_string(&path).unwrap().contains("°F"));
    assert_eq!(record(&open(&path).unwrap()), record(&other()));
    assert_eq!(names(folder.path()), ["car.toml"]);
}

#[test]
fn a_path_without_a_folder_is_saved_where_the_program_runs() {
    // The working folder of the tests is the package; a folder below it that is removed again.
    let folder = tempfile::tempdir_in(".").unwrap();
    let path = PathBuf::from(folder.path().file_name().unwrap()).join("car.toml");
    save(&demo(), &path, UnitSystem::Si).unwrap();
    assert!(open(&path).is_ok());
}

#[cfg(unix)]
#[test]
fn keeps_the_permissions_of_the_old_file_and_gives_usual_ones_to_a_new_one() {
    use std::os::unix::fs::PermissionsExt as _;
    let (_folder, path) = saved();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&path), 0o644);
    fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
    save(&other(), &path, UnitSystem::Si).unwrap();
    assert_eq!(mode(&path), 0o600);
}

#[test]
fn a_protected_file_is_left_as_it_was() {
    let (folder, path) = saved();
    let before = fs::read(&path).unwrap();
    let mut protected = fs::metadata(&path).unwrap().permissions();
    protected.set_readonly(true);
    fs::set_permissions(&path, protected).unwrap();
    let error = save(&other(), &path, UnitSystem::Si).unwrap_err();
    assert_eq!(
        error.to_string(),
        format!(
            "cannot write {}: it is protected against writing. It was left as it is; save under another name",
            path.display()
        )
    );
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(names(folder.path()), ["car.toml"]);
}

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_leaves_the_old_file() {
    use std::os::unix::fs::PermissionsExt as _;
    let (folder, path) = saved();
    let before = fs::read(&path).unwrap();
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o555)).unwrap();
    // The superuser may write everywhere; then a folder that is no folder must do.
    let allowed = tempfile::tempfile_in(folder.path()).is_ok();
    let result = save(&other(), &path, UnitSystem::Si);
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
    if !allowed {
        let error = result.unwrap_err();
        assert!(matches!(error, FileError::System { act: "write", .. }), "{error}");
        assert!(error.to_string().contains(&path.display().to_string()));
        assert_eq!(fs::read(&path).unwrap(), before);
    }
    assert_eq!(names(folder.path()), ["car.toml"]);
    let error = save(&other(), &path.join("inside-a-file.toml"), UnitSystem::Si).unwrap_err();
    assert!(matches!(error, FileError::System { act: "write", .. }), "{error}");
    let nowhere = folder.path().join("no-folder/car.toml");
    let error = save(&other(), &nowhere, UnitSystem::Si).unwrap_err();
    let words = format!("cannot write {}: there is no such folder; make it first or name another", nowhere.display());
    assert_eq!(error.to_string(), words);
    assert_eq!(names(folder.path()), ["car.toml"]);
}

#[test]
fn a_folder_is_no_target() {
    let (folder, _) = saved();
    let inner = folder.path().join("inner");
    fs::create_dir(&inner).unwrap();
    let error = save(&demo(), &inner, UnitSystem::Si).unwrap_err();
    assert_eq!(
        error.to_string(),
        format!("cannot write {}: it is not a file but a folder or a device; name a file", inner.display())
    );
    assert!(fs::read_dir(&inner).unwrap().next().is_none());
    assert_eq!(names(folder.path()), ["car.toml", "inner"]);
}

#[cfg(unix)]
#[test]
fn a_link_is_followed_and_stays_a_link() {
    use std::os::unix::fs::symlink;
    let (folder, path) = saved();
    let elsewhere = folder.path().join("elsewhere");
    fs::create_dir(&elsewhere).unwrap();
    // A relative link, a link to that link, and a link to a file that is not there yet.
    symlink("../car.toml", elsewhere.join("link.toml")).unwrap();
    symlink(elsewhere.join("link.toml"), folder.path().join("twice.toml")).unwrap();
    symlink("new.toml", elsewhere.join("dangling.toml")).unwrap();
    save(&other(), &folder.path().join("twice.toml"), UnitSystem::Si).unwrap();
    assert_eq!(open(&path).unwrap().title, "Another car");
    for link in [elsewhere.join("link.toml"), folder.path().join("twice.toml"), elsewhere.join("dangling.toml")] {
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink(), "{}", link.display());
    }
    save(&other(), &elsewhere.join("dangling.toml"), UnitSystem::Si).unwrap();
    assert!(fs::symlink_metadata(elsewhere.join("new.toml")).unwrap().is_file());
    assert_eq!(names(&elsewhere), ["dangling.toml", "link.toml", "new.toml"]);
    // Two links that lead to each other.
    symlink("b.toml", elsewhere.join("a.toml")).unwrap();
    symlink("a.toml", elsewhere.join("b.toml")).unwrap();
    let error = save(&other(), &elsewhere.join("a.toml"), UnitSystem::Si).unwrap_err();
    assert!(error.to_string().ends_with("the links lead in a circle"), "{error}");
}

#[test]
fn a_project_that_could_not_be_opened_again_is_not_saved() {
    let (folder, path) = saved();
    let before = fs::read(&path).unwrap();
    for spoil in [
        (|project| project.tank.diameter = Measured::from_base(f64::NAN)) as fn(&mut Project),
        |project| project.cap.opening = Measured::from_base(9e9),
        |project| project.title = "x".repeat(3000),
        |project| project.engine.cylinders = 4,
        |project| project.circuit.total = Measured::from_base(f64::INFINITY),
    ] {
        let mut project = demo();
        spoil(&mut project);
        let error = save(&project, &path, UnitSystem::Si).unwrap_err();
        let FileError::Unsound { faults, .. } = &error else { panic!("{error}") };
        assert!(!faults.is_empty());
        assert!(error.to_string().contains("was not written, since it could not be opened again. Mend 1 fault first:"));
        assert_eq!(fs::read(&path).unwrap(), before);
        assert_eq!(names(folder.path()), ["car.toml"]);
    }
}

/// Files that are none, or none of ours.
#[test]
fn odd_files_are_refused_without_a_hang() {
    let folder = tempfile::tempdir().unwrap();
    let told = |path: &Path| open(path).unwrap_err().to_string().replace(&path.display().to_string(), "FILE");
    assert_eq!(told(folder.path()), "cannot read FILE: it is not a file but a folder or a device; name a file");
    let path = folder.path().join("absent.toml");
    assert_eq!(told(&path), "cannot read FILE: there is no such file; mind the spelling and the folder");
    let path = folder.path().join("large.toml");
    fs::write(&path, vec![b'#'; 2 << 20]).unwrap();
    assert_eq!(told(&path), "FILE is 2097152 bytes long; a project file has a few thousand. It was not read");
    let path = folder.path().join("latin.toml");
    fs::write(&path, b"coldmark_format = 1\ntitle = \"Caf\xe9\"\n").unwrap();
    assert_eq!(
        told(&path),
        "FILE has 1 fault:\n  line 2: this is not text in UTF-8; save the file as UTF-8 in an editor"
    );
    let path = folder.path().join("marked.toml");
    let text = fs::read_to_string(PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("presets/demo.toml")).unwrap();
    // A byte order mark and line ends of another system are no fault.
    fs::write(&path, format!("\u{feff}{}", text.replace('\n', "\r\n"))).unwrap();
    assert_eq!(open(&path).unwrap(), demo());
    #[cfg(unix)]
    assert_eq!(
        told(Path::new("/dev/zero")),
        "cannot read FILE: it is not a file but a folder or a device; name a file"
    );
}
