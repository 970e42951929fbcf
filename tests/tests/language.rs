//! Every text that a reader may meet has its translation, in every language there is.
//!
//! The texts are harvested: of declarations and methods all there are; of what is made of a build, those that many builds make;
//! of messages, the literals in the source.

use core::ops::ControlFlow;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use trialfit_bundle::language::{Language as File, read};
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::chart::Chart;
use trialfit_core::language::{FIGURE, Language};
use trialfit_core::method::method;
use trialfit_core::quantity::DIMENSIONS;
use trialfit_core::report::Report;
use trialfit_core::scene::{Scene, Shape};
use trialfit_core::sentence::Piece;
use trialfit_core::share::markup::Line;
use trialfit_core::share::text::{Section, given};
use trialfit_core::show::System;
use trialfit_core::spec::{Kind, Place, Role, Verdict};
use trialfit_core::tools::Job;
use trialfit_core::tools::sweep::{Map, Sweep};
use trialfit_core::{changed, listing, overview, proofs, shelf, show};
use trialfit_tests::{PLAN, evaluated};

fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

fn languages() -> Vec<File> {
    let files = fs::read_dir(root().join("public/languages")).expect("the folder of languages");
    let paths = files.map(|file| file.expect("a file").path());
    paths.map(|path| read(&fs::read_to_string(&path).expect("text")).unwrap_or_else(|why| panic!("{}: {why:#}", path.display()))).collect()
}

/// Texts as they come to the reader, each once, with where it was found first.
#[derive(Default)]
struct Harvest {
    /// By what of them differs but for its numbers.
    texts: BTreeMap<String, (String, &'static str)>,
    at: &'static str,
}

impl Harvest {
    fn text(&mut self, text: impl AsRef<str>) {
        let text = text.as_ref();
        if text.contains(char::is_alphabetic) {
            self.texts.entry(alike(text)).or_insert_with(|| (text.to_owned(), self.at));
        }
    }

    fn texts<T: AsRef<str>>(&mut self, texts: impl IntoIterator<Item = T>) {
        texts.into_iter().for_each(|text| self.text(text));
    }

    /// As the page translates it: figures set apart; and as a voice says it.
    fn pieces(&mut self, pieces: &[Piece]) {
        let mut figures = 0;
        let (mut seen, mut heard) = (String::new(), String::new());
        for piece in pieces {
            match piece {
                Piece::Words(words) => {
                    seen.push_str(words);
                    heard.push_str(words);
                }
                Piece::Figure { value, unit, digits } => {
                    seen.push(char::from_u32(u32::from(FIGURE) + figures).expect("few figures"));
                    heard.push_str(&show::figure(*value, unit, *digits, System::Metric).spoken);
                    figures += 1;
                }
            }
        }
        self.text(seen);
        self.text(heard);
    }

    fn scene(&mut self, scene: &Scene) {
        self.texts([&scene.title, &scene.description]);
        self.texts(scene.handles.iter().map(|handle| &handle.label));
        for shape in &scene.shapes {
            if let Shape::Dimension { label, .. } | Shape::Label { label, .. } = shape {
                self.pieces(label);
            }
        }
    }

    fn chart(&mut self, chart: &Chart) {
        self.texts([&chart.title, &chart.finding]);
        self.texts([&chart.x.label, &chart.y.label]);
        self.texts(chart.curves.iter().map(|curve| &curve.label));
        self.texts(chart.edges.iter().map(|edge| &edge.label));
        self.texts(chart.spots.iter().map(|spot| &spot.label));
    }

    fn listing(&mut self, it: &listing::Listing) {
        self.texts([it.title, it.help]);
        self.texts(it.head);
        it.rows.iter().flatten().for_each(|cell| self.pieces(cell));
        self.texts(&it.labels);
    }

    fn declarations(&mut self) {
        for it in ALL {
            self.at = it.key;
            self.texts([it.label, it.question]);
            self.texts(it.cautions);
            self.texts(it.leaves_out);
            self.texts(it.letters.iter().map(|(_, means)| means));
            self.texts(it.tables.iter().flat_map(|table| [table.label, table.help]));
            for (ordinal, spec) in it.specs.iter().enumerate() {
                self.texts([spec.label, spec.help, spec.caution, spec.group]);
                self.text(spec.source.to_string());
                if let Kind::Choice(choices) = spec.kind {
                    self.texts(choices.iter().map(|choice| choice.label));
                }
                let calculator = ALL.iter().position(|other| other.key == it.key).expect("one of all") as u8;
                if let Some(sketch) = spec.sketch {
                    self.scene(&sketch.scene(trialfit_core::spec::Id { calculator, ordinal: ordinal as u8 }));
                }
            }
        }
        self.at = "proofs";
        self.texts(proofs::Stage::ALL.map(proofs::Stage::words));
        self.at = "units";
        self.texts(DIMENSIONS.iter().flat_map(|dimension| dimension.units).map(|unit| unit.spoken));
        self.texts([Verdict::Within, Verdict::Near, Verdict::Unknown, Verdict::Beyond].map(Verdict::word));
    }

    /// What sweeps over every third input of a build find, and maps over it and the next.
    fn sweeps(&mut self, build: &Build) {
        self.at = "sweeps";
        let range = |place: Place| {
            let spec = build.layout().spec(place.id);
            match spec.kind {
                Kind::Choice(choices) => Some([0.0, choices.len() as f64 - 1.0]),
                Kind::Quantity { unit, .. } => spec.usual[0].is_finite().then(|| spec.usual.map(|end| unit.to_si(end))),
                Kind::Text(_) => None,
            }
        };
        let inputs: Vec<Place> = build.layout().places(Role::Input).step_by(3).collect();
        for (&input, &next) in inputs.iter().zip(&inputs[1..]) {
            let Some(ends) = range(input) else { continue };
            if let Ok(mut sweep) = Sweep::new(&PLAN, build, input, ends, &[], 12) {
                let found = loop {
                    if let ControlFlow::Break(found) = sweep.advance(&PLAN, 100) {
                        break found;
                    }
                };
                self.pieces(&found.finding(build).pieces);
            }
            let Some(Ok(mut map)) = range(next).map(|others| Map::new(&PLAN, build, [input, next], [ends, others], None, [3, 3])) else {
                continue;
            };
            if let ControlFlow::Break(found) = map.advance(&PLAN, 100) {
                self.text(found.finding(build));
            }
        }
    }

    fn methods(&mut self) {
        for (at, system) in (0..ALL.len()).flat_map(|at| [(at, System::Metric), (at, System::Imperial)]) {
            self.at = ALL[at].key;
            for section in method(&PLAN, ALL, at as u8, system) {
                self.text(&section.title);
                for entry in section.entries {
                    self.text(&entry.name);
                    self.texts(&entry.lines);
                    self.texts(entry.letters.iter().map(|letter| &letter.means));
                }
            }
        }
    }

    /// What every calculator makes of a build.
    fn build(&mut self, build: &Build, charts: bool) {
        let report = evaluated(build);
        self.figures(build, &report);
        for it in ALL {
            self.at = it.key;
            self.pieces(&(it.sentence)(build, &report).pieces);
            match it.scene.map(|draw| draw(build, &report)) {
                Some(Ok(scene)) => self.scene(&scene),
                Some(Err(why)) => self.text(why.reason(report.layout())),
                None => {}
            }
            for plot in it.charts.iter().filter(|_| charts) {
                match plot(&PLAN, build, &report) {
                    Ok(chart) => self.chart(&chart),
                    Err(why) => self.text(why.reason(report.layout())),
                }
            }
            if let Some(draw) = it.diagrams {
                draw(build, &report).iter().for_each(|scene| self.scene(scene));
            }
            if let Some(list) = it.listing {
                self.listing(&list(build, &report));
            }
        }
        self.at = "overview";
        for all in overview::calculators(build, &report) {
            self.pieces(&all.line.pieces);
        }
        for link in overview::links(&PLAN, build, &report) {
            self.pieces(&link.line.pieces);
        }
        self.at = "proofs";
        for due in proofs::proofs(build, &report) {
            self.pieces(&due.pieces);
        }
    }

    fn figures(&mut self, build: &Build, report: &Report) {
        self.at = "reasons";
        for place in build.layout().places(Role::Output).chain(build.layout().places(Role::Input)) {
            if let Err(why) = report.value(place) {
                self.text(why.reason(report.layout()));
            }
        }
    }

    /// What is posted of a build and stands on its sheet.
    fn post(&mut self, build: &Build) {
        self.at = "posts";
        let report = evaluated(build);
        for place in build.layout().places(Role::Output).chain(build.layout().places(Role::Input)) {
            self.text(show::label(build, place));
        }
        for section in Section::all(build, &report, System::Metric) {
            self.text(section.sentence);
            self.texts(section.others);
            self.texts(section.within);
        }
        for line in given(build, &report, System::Metric) {
            match line {
                Line::Heading(title, after) => self.texts([title, &after]),
                Line::Words(words) | Line::Item(words) => self.text(words),
                Line::Caution(words) => self.text(words),
                Line::Note(_) | Line::Address { .. } | Line::Blank => {}
            }
        }
    }

    fn changes(&mut self, before: &Build, after: &Build) {
        self.at = "changes";
        let (one, other) = (evaluated(before), evaluated(after));
        let found = changed::changes((before, &one), (after, &other));
        found.inputs.iter().for_each(|it| self.pieces(&it.line.pieces));
        found.verdicts.iter().for_each(|it| self.pieces(&it.line.pieces));
    }

    /// The literals of a source file, up to its tests, that are sentences, their slots filled with figures.
    fn literals(&mut self, path: &'static str, is_said: fn(&str) -> bool) {
        self.at = path;
        let text = fs::read_to_string(root().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"));
        let text = text.split("#[cfg(test)]").next().unwrap_or_default();
        let lines: String = text.lines().filter(|line| !line.trim_start().starts_with("//")).map(|line| line.to_owned() + "\n").collect();
        for literal in literals(&lines).into_iter().filter(|literal| is_said(&literal.0)) {
            match PUT_TOGETHER.iter().find(|(part, _)| alike_slots(part) == alike_slots(&literal.1)) {
                Some((_, whole)) => self.texts(*whole),
                None => self.text(slotted(&literal.1)),
            }
        }
    }
}

/// The text with every number above 1 the same: one of each kind is enough.
fn alike(text: &str) -> String {
    let mut kind = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(|letter: char| letter.is_ascii_digit()) {
        let is_part = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | '\u{202F}');
        let end = rest[start..].find(|letter| !is_part(letter)).map_or(rest.len(), |end| start + end);
        let number = rest[start..end].trim_end_matches('.');
        kind.push_str(&rest[..start]);
        kind.push_str(match number {
            "1" => "1",
            number if number.contains('.') => "2.5",
            _ => "2",
        });
        rest = &rest[start + number.len()..];
    }
    kind + rest
}

/// The string literals of a source text: what stands on the line before each, and the literal.
fn literals(source: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut rest = source;
    while let Some(at) = rest.find('"') {
        let before = rest[..at].rsplit('\n').next().unwrap_or_default().to_owned();
        let mut literal = String::new();
        let mut letters = rest[at + 1..].char_indices();
        let mut end = rest.len();
        while let Some((offset, letter)) = letters.next() {
            match letter {
                '"' => {
                    end = at + 1 + offset + 1;
                    break;
                }
                '\\' => match letters.next() {
                    Some((_, 'n')) => literal.push('\n'),
                    Some((_, 'u')) => {
                        let code: String = letters.by_ref().map(|(_, it)| it).take_while(|it| *it != '}').filter(|it| *it != '{').collect();
                        literal.extend(u32::from_str_radix(&code, 16).ok().and_then(char::from_u32));
                    }
                    // The line goes on below.
                    Some((_, '\n')) => {
                        while letters.as_str().starts_with(char::is_whitespace) {
                            letters.next();
                        }
                    }
                    Some((_, other)) => literal.push(other),
                    None => {}
                },
                other => literal.push(other),
            }
        }
        found.push((before, literal));
        rest = &rest[end..];
    }
    found
}

/// A literal of a format, whatever stands in its slots.
fn alike_slots(literal: &str) -> String {
    slotted(&literal.replace("{limit}", "{}")).chars().map(|letter| if letter == FIGURE { '_' } else { letter }).collect()
}

/// A literal of a format with figures in its slots.
fn slotted(literal: &str) -> String {
    let mut text = String::new();
    let mut rest = literal;
    while let Some((before, inside)) = rest.split_once('{') {
        text.push_str(before);
        if let Some(brace) = inside.strip_prefix('{') {
            text.push('{');
            rest = brace;
        } else {
            let (_, after) = inside.split_once('}').unwrap_or_default();
            text.push(FIGURE);
            rest = after;
        }
    }
    let text = (text + rest).replace("}}", "}");
    // What may follow the sentence is a sentence of its own.
    if text.ends_with(&format!(".{FIGURE}")) { text.trim_end_matches(FIGURE).to_owned() } else { text }
}

/// Literals that are put together to a sentence before anybody reads it, and what comes of them.
const PUT_TOGETHER: [(&str, &[&str]); 7] = [
    (" ({} without a {})", &["120.00 EUR (2 without a price), 12.5 kg (3 without a mass); 4 kg come off."]),
    (
        "Chance of being {} {}: {}, give or take {}.",
        &["Chance of being above 5 N: 2.00 %, give or take 0.10 %.", "Chance of being below 5 N: 2.00 %, give or take 0.10 %."],
    ),
    (
        "Wanted: {} Hz run in, {} Hz new.{}",
        &["Wanted: 112 Hz run in, 130 Hz new.", "Wanted: 112 Hz run in, 130 Hz new. Under 90 Hz a pulley slips."],
    ),
    ("{} {}, near from {}", &["at most 130 N, near from 115 N", "at least 130 N, near from 115 N"]),
    (
        "{}, of {} that pass; {} combinations in all.",
        &[
            "1 set that no other betters, of 3 that pass; 128 combinations in all.",
            "2 sets that no other betters, of 3 that pass; 128 combinations in all.",
        ],
    ),
    (
        "{}{}: {} for each. {}",
        &[
            "64.5 s, 30 swings: 2.15 s for each. By their scatter, give or take 0.2 s.",
            "64.5 s, one swing: 2.15 s for each. Time it again, to see how far it may be off.",
        ],
    ),
    (
        "{} is a unit of {}; this wants {} {}, such as {}.",
        &["N is a unit of force; this wants a mass, such as 730 kg.", "N is a unit of force; this wants an angle, such as 3°."],
    ),
];

/// A choice of builds: the demo, one of which nothing is known, and the demo with each input in turn at its ends, in each of
/// its ways, or not given.
fn builds() -> Vec<Build> {
    let demo = Build::default();
    let mut all = vec![demo.clone(), Build::cleared(ALL)];
    let layout = demo.layout().clone();
    let first_row = |place: &Place| place.row.is_none_or(|row| row.0 <= 2);
    for place in layout.places(Role::Input).filter(first_row) {
        let spec = layout.spec(place.id);
        let numbers: Vec<f64> = match spec.kind {
            Kind::Quantity { unit, .. } => {
                spec.possible.iter().chain(&spec.usual).filter(|it| it.is_finite()).map(|it| unit.to_si(*it)).collect()
            }
            Kind::Choice(choices) => (0..choices.len()).map(|at| at as f64).collect(),
            Kind::Text(_) => Vec::new(),
        };
        for number in numbers {
            let mut build = demo.clone();
            if build.set(place, number).is_ok() {
                all.push(build);
            }
        }
        let mut build = demo.clone();
        build.forget(place);
        all.push(build);
    }
    all
}

/// Builds with many inputs anywhere in their usual range at once; always the same.
fn mixed(count: usize) -> Vec<Build> {
    let mut state = 2500_u64;
    let mut random = move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 40) as f64 / (1_u64 << 24) as f64
    };
    let one = |_| {
        let mut build = Build::default();
        let layout = build.layout().clone();
        let share = random();
        for place in layout.places(Role::Input) {
            let spec = layout.spec(place.id);
            if random() > share {
                continue;
            }
            let number = match spec.kind {
                Kind::Quantity { unit, .. } => {
                    let [low, high] = if spec.usual.iter().all(|it| it.is_finite()) && random() < 0.8 { spec.usual } else { spec.possible };
                    spec.settled(unit.to_si(low + (high - low) * random()))
                }
                Kind::Choice(choices) => (random() * choices.len() as f64).floor(),
                Kind::Text(_) => continue,
            };
            _ = build.set(place, number);
        }
        build
    };
    (0..count).map(one).collect()
}

/// All that is asked for. What cannot be harvested by working builds out is read from the source.
fn harvest() -> Harvest {
    let mut harvest = Harvest::default();
    harvest.declarations();
    harvest.methods();
    let builds = builds();
    let demo = &builds[0];
    for (at, build) in builds.iter().enumerate() {
        harvest.build(build, at % 5 == 0);
        harvest.changes(demo, build);
    }
    for (at, build) in mixed(200).iter().enumerate() {
        harvest.build(build, true);
        if at % 10 == 0 {
            harvest.post(build);
        }
    }
    builds.iter().take(40).for_each(|build| harvest.post(build));
    [demo, &Build::cleared(ALL)].into_iter().chain(&mixed(3)).for_each(|build| harvest.sweeps(build));
    _ = shelf::read("{}").map_err(|why| harvest.text(why.to_string()));
    harvest.literals("web/src/words.rs", |_| true);
    for path in [
        "core/src/share/problem.rs",
        "core/src/share/stored.rs",
        "core/src/shelf/problem.rs",
        "core/src/entry.rs",
        "core/src/tools/combine.rs",
    ] {
        harvest.literals(path, |before| before.contains("#[error("));
    }
    harvest
}

#[test]
fn every_text_is_translated() {
    let harvest = harvest();
    for file in languages() {
        let written = file.written();
        let mut language = Language::read(&written);
        let mut missing: Vec<String> = Vec::new();
        // Quotation marks are a language's own.
        let same_marks = language.translate("“”").text.contains('”');
        for (text, at) in harvest.texts.values() {
            let found = language.translate(text);
            if found.lacks > 0 || !same_marks && found.text.contains('”') {
                missing.push(format!("{at}: {text}\n    {}", found.text));
            }
        }
        missing.sort();
        let all = harvest.texts.len();
        assert!(missing.is_empty(), "{}: {} of {all} texts lack something:\n{}", file.code, missing.len(), missing.join("\n"));
    }
}
