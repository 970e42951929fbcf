//! The native twin, run as scripts run it.

use serde_json::Value;
use std::io::Write;
use std::process::{Command, Output, Stdio};
use trialfit_core::build::Build;
use trialfit_core::quantity::{per_minute, unit::RPM};
use trialfit_core::spec::{Place, Role, RowId};
use trialfit_tests::agrees_within;

fn report(arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO"))
        .args(["run", "-q", "-p", "trialfit-core", "--example", "report", "--"])
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("cargo runs");
    let mut stdin = child.stdin.take().expect("a pipe");
    // The program need not read what it was not told to.
    _ = stdin.write_all(input.as_bytes());
    drop(stdin);
    child.wait_with_output().expect("it ends")
}

fn json(arguments: &[&str], input: &str) -> Value {
    let output = report(arguments, input);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

#[test]
fn json_has_every_output_the_inputs_in_force_and_the_problems() {
    let whole = json(&["--json", "1.1/car.redline=7000/car.mass=gone/car.moss=3/end"], "");
    let layout = Build::default().layout().clone();
    for (role, under) in [(Role::Output, "outputs"), (Role::Input, "inputs")] {
        for place in layout.places(role) {
            assert!(whole[under][layout.key(place)].is_object(), "{} under {under}", layout.key(place));
        }
    }
    let highest = &whole["outputs"]["car.highest-speed"];
    // Redline and overshoot add up: 7000 + 300 per minute, in rad/s.
    agrees_within(highest["value"].as_f64().expect("a number"), per_minute(7300.0).si(), 1e-15, "definition");
    assert_eq!(highest["unit"], "rad/s");
    assert_eq!(highest["verdict"], "within");
    assert_eq!(whole["inputs"]["car.mass"]["value"], Value::Null);
    assert_eq!(whole["inputs"]["car.mass"]["reason"], "Needs mass with driver.");
    assert_eq!(whole["inputs"]["car.rolling-radius"]["follows"], "car.rolling-radius-from-size");
    assert_eq!(whole["problems"][0], "“car.moss” is no input this version knows; it was left out. Did you mean “car.mass”?");
}

#[test]
fn standard_input_and_files_are_read_like_links() {
    let stored = "Trialfit build 1\nname: Blue\nrevision: 3\n1.1/car.idle=900/end\n";
    let of = |whole: Value| RPM.from_si(whole["inputs"]["car.idle"]["value"].as_f64().expect("a number")).round();
    assert_eq!(of(json(&["--json", "-"], stored)), 900.0);
    let file = std::env::temp_dir().join(format!("trialfit-twin-{}.txt", std::process::id()));
    std::fs::write(&file, stored).expect("a temporary file");
    let whole = json(&["--json", file.to_str().expect("a plain path")], "");
    std::fs::remove_file(&file).expect("it was ours");
    assert_eq!(of(whole), 900.0);
}

#[test]
fn keys_name_every_input_and_output() {
    let output = report(&["--keys"], "");
    let text = String::from_utf8(output.stdout).expect("text");
    let layout = Build::default().layout().clone();
    for id in layout.ids() {
        let spec = layout.spec(id);
        let row = |row: u16| layout.key(Place { id, row: spec.table.is_some().then_some(RowId(row)) });
        let key = row(7).replace(".7.", ".ROW.");
        let line = text.lines().find(|line| line.split('\t').next() == Some(&key));
        assert!(line.is_some_and(|line| line.contains(spec.label)), "{key}: {}", spec.label);
    }
    assert!(text.contains("car.gears\ttable\t\t1 to 8 rows\trows 1.2.3.4.5\t"));
    assert!(text.contains("car.idle\tinput\tmin⁻¹\t300 to 2500\t850\t"));
}

#[test]
fn text_is_fit_to_paste() {
    let output = report(&["--text", "1.1/car.redline=7000/car.gears=1.2.3/note=three-speeds/end"], "");
    let text = String::from_utf8(output.stdout).expect("text").replace(['\u{A0}', '\u{202F}'], " ");
    for expected in [
        "CAR",
        "- Gears: 3 rows (usual 5)",
        "- Redline: 7000 min⁻¹ (usual 6800 min⁻¹)",
        "Note: three speeds",
        "#1.1/car.gears=1.2.3/car.redline=7000/note=three-speeds/end",
    ] {
        assert!(text.contains(expected), "no “{expected}” in\n{text}");
    }
}

#[test]
fn bench_prints_nanoseconds() {
    let output = report(&["--bench", "10", "1.1/end"], "");
    let text = String::from_utf8(output.stdout).expect("text");
    let number = text.trim().strip_suffix(" ns per evaluation").expect("so worded");
    assert!(number.parse::<f64>().expect("a number") > 0.0);
}

#[test]
fn what_cannot_be_read_exits_with_two_and_one_line() {
    for (arguments, said) in [
        (["--json", "no link"].as_slice(), "“no link” is no build: a build's link has #1.1/ in it."),
        (["--json"].as_slice(), "usage: report [--json|--text|--keys|--bench N] LINK_OR_FILE (- reads standard input)"),
        (["--bench", "0", "1.1/end"].as_slice(), "--bench wants how many times to evaluate, such as --bench 100000."),
        (["-"].as_slice(), "“” is no build: a build's link has #1.1/ in it."),
    ] {
        let output = report(arguments, "");
        assert_eq!(output.status.code(), Some(2));
        assert_eq!(String::from_utf8_lossy(&output.stderr).trim_end(), said);
        assert!(output.stdout.is_empty());
    }
}
