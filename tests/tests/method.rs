//! The method of each calculator says all that is declared and every equation in the code.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::method::{Section, key_of, markdown, method};
use trialfit_core::share::link;
use trialfit_core::show::System;
use trialfit_core::spec::{Kind, Role};
use trialfit_tests::PLAN;

/// Each calculator's.
static METHODS: LazyLock<Vec<Vec<Section>>> =
    LazyLock::new(|| (0..ALL.len()).map(|at| method(&PLAN, ALL, at as u8, System::Metric)).collect());

fn all() -> impl Iterator<Item = (&'static str, &'static Vec<Section>)> {
    ALL.iter().map(|it| it.key).zip(METHODS.iter())
}

fn entries(sections: &[Section], title: &str) -> Vec<String> {
    let of_title = sections.iter().filter(|section| section.title.starts_with(title));
    of_title.flat_map(|section| section.entries.iter().map(|entry| format!("{} {}", entry.name, entry.lines.join(" ")))).collect()
}

#[test]
fn everything_declared_occurs() {
    for (it, (_, sections)) in ALL.iter().zip(all()) {
        let (given, answers) = (entries(sections, "Given: "), entries(sections, "Answers"));
        let whole = markdown(it.label, sections);
        assert_eq!(given.len() + answers.len(), it.specs.len(), "{}: each once", it.key);
        for spec in it.specs {
            let among = if spec.role == Role::Input { &given } else { &answers };
            // Labels may be alike in different tables: what it is said to be goes with it.
            let said =
                among.iter().find(|entry| entry.starts_with(spec.label) && entry.contains(spec.help) && entry.contains(spec.caution));
            let said = said.unwrap_or_else(|| panic!("{}.{} is not said", it.key, spec.key));
            for limit in spec.limits.iter().flatten() {
                for id in [Some(limit.beyond), limit.near].into_iter().flatten() {
                    let mark = &ALL[usize::from(id.calculator)].specs[usize::from(id.ordinal)];
                    assert!(said.to_lowercase().contains(&mark.label.to_lowercase()), "{}.{}: {}", it.key, spec.key, mark.label);
                }
            }
            if spec.role == Role::Input && !spec.default.is_nan() && !matches!(spec.kind, Kind::Text(_)) {
                assert!(!spec.source.to_string().trim().is_empty(), "{}.{} has no source", it.key, spec.key);
            }
        }
        for words in it.cautions.iter().chain(it.leaves_out).chain([&it.question]) {
            assert!(whole.contains(words), "{}: {words}", it.key);
        }
    }
}

/// Of the source files themselves: a line nobody comes by would be missing from the method.
#[test]
fn every_equation_in_the_code_occurs() {
    let said: Vec<&str> =
        all().flat_map(|(_, sections)| sections).flat_map(|it| &it.entries).filter_map(|it| Some(it.equation?.equation)).collect();
    let mut written = Vec::new();
    read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/src/calculators"), &mut written);
    assert!(written.len() > 200, "{} equations", written.len());
    let missing: Vec<&String> = written.iter().filter(|it| !said.contains(&it.as_str())).collect();
    assert!(missing.is_empty(), "{missing:#?}");
}

fn read(folder: &Path, equations: &mut Vec<String>) {
    for file in fs::read_dir(folder).expect("the source is there") {
        let path = file.expect("a file").path();
        if path.is_dir() {
            read(&path, equations);
        } else if !path.ends_with("by_ear.rs") {
            // What is measured by ear is worked out where it is measured, by no step.
            let text = fs::read_to_string(&path).expect("text");
            equations.extend(text.split("equation: \"").skip(1).filter_map(|rest| rest.split('"').next()).map(str::to_owned));
        }
    }
}

#[test]
fn every_letter_of_an_equation_stands_for_something() {
    let mut nameless = Vec::new();
    for (key, sections) in all() {
        for entry in sections.iter().flat_map(|section| &section.entries) {
            let Some(line) = entry.equation else { continue };
            let without = entry.letters.iter().filter(|letter| letter.means.is_empty());
            nameless.extend(without.map(|letter| format!("{key}: {} in {}", letter.letter, line.equation)));
            assert!(!line.source.to_string().trim().is_empty(), "{}", line.equation);
        }
    }
    assert!(nameless.is_empty(), "{nameless:#?}");
}

/// The word that opens a method is nothing else's.
#[test]
fn the_methods_own_words_are_free() {
    for it in ALL {
        let opened = link::read(&format!("1.1/show={}/end", key_of(it.key))).expect("it opens");
        assert!(opened.problems.is_empty() && opened.link.show == key_of(it.key), "{}", it.key);
        assert!(Build::default().layout().place_by_key(&key_of(it.key)).is_none(), "{}", it.key);
    }
}

/// Letters told by hand are those that are asked for.
#[test]
fn no_letter_is_told_in_vain() {
    for (it, (_, sections)) in ALL.iter().zip(all()) {
        let used =
            |means: &str| sections.iter().flat_map(|section| &section.entries).flat_map(|entry| &entry.letters).any(|it| it.means == means);
        let vain: Vec<_> = it.letters.iter().filter(|(_, means)| !used(means)).collect();
        assert!(vain.is_empty(), "{}: {vain:?}", it.key);
    }
}

/// The clutch's as it was read and found right. `TRIALFIT_WRITE_METHOD=1` writes it anew, to be read again.
#[test]
fn the_clutchs_is_as_it_was_read() {
    let at = ALL.iter().position(|it| it.key == "clutch").expect("there is one");
    let now = markdown("Clutch", &METHODS[at]);
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("methods/clutch.md");
    if std::env::var_os("TRIALFIT_WRITE_METHOD").is_some() {
        fs::write(&file, &now).expect("it can be written");
    }
    assert_eq!(now, fs::read_to_string(file).expect("it is kept"));
}
