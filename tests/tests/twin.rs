//! The native twin, run as scripts run it.

use serde_json::Value;
use std::io::Write;
use std::process::{Command, Output, Stdio};
use trialfit_core::build::Build;
use trialfit_core::quantity::{per_minute, unit::RPM};
use trialfit_core::spec::{Place, Role, RowId};
use trialfit_tests::agrees_within;

fn report(arguments: &[&str], input: &str) -> Output {
    report_of(arguments, input.as_bytes())
}

fn report_of(arguments: &[&str], input: &[u8]) -> Output {
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
    _ = stdin.write_all(input);
    drop(stdin);
    child.wait_with_output().expect("it ends")
}

fn json(arguments: &[&str], input: &str) -> Value {
    json_of(&report(arguments, input))
}

fn json_of(output: &Output) -> Value {
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
    assert_eq!(highest["caution"], "Allow for limiter overshoot and a missed shift.");
    for calculator in layout.calculators() {
        let cautions = whole["cautions"][calculator.key].as_array().expect("a list");
        assert!(cautions.iter().map(|caution| caution.as_str().expect("words")).eq(calculator.cautions.iter().copied()));
    }
    assert_eq!(whole["inputs"]["car.mass"]["value"], Value::Null);
    assert_eq!(whole["inputs"]["car.mass"]["reason"], "Needs “Mass with driver”.");
    assert_eq!(whole["inputs"]["car.rolling-radius"]["follows"], "car.rolling-radius-from-size");
    assert_eq!(whole["problems"][0], "“car.moss” is no input this version knows; it was left out. Did you mean “car.mass”?");
}

#[test]
fn json_has_tolerances_units_and_why_nobody_can_judge() {
    let link = "1.1/car.mass.pm=10/car.mass.dist=normal-3/clutch.pressure-limit=gone/units=imperial/end";
    let whole = json(&["--json", link], "");
    let mass = &whole["inputs"]["car.mass"];
    assert_eq!((&mass["pm"], &mass["dist"]), (&10.0.into(), &"normal-3".into()));
    assert_eq!((&whole["units"], &whole["name"], &whole["parts"]), (&"imperial".into(), &"".into(), &Value::Array(Vec::new())));
    let judged = &whole["outputs"]["clutch.line-pressure"];
    assert!(judged["value"].is_number() && judged["verdict"] == "unknown");
    assert!(judged["reason"].as_str().is_some_and(|why| why.to_lowercase().contains("highest line pressure")), "{judged}");
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
    // Another system's editor and shell wrote it.
    let text = format!("\u{FEFF}{}", stored.replace('\n', "\r\n"));
    let bytes: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(of(json_of(&report_of(&["--json", "-"], &bytes))), 900.0);
    // A pipe by its name.
    #[cfg(unix)]
    assert_eq!(of(json(&["--json", "/dev/stdin"], stored)), 900.0);
}

#[test]
fn of_a_file_of_several_the_first_is_read_under_its_own_name() {
    let file =
        "Trialfit build 1\nname: Blue\nrevision: 3\n1.1/car.idle=900/end\nTrialfit build 1\nname: Red\nrevision: 1\n1.1/car.idle=950/end\n";
    let whole = json(&["--json", "-"], file);
    let idle = RPM.from_si(whole["inputs"]["car.idle"]["value"].as_f64().expect("a number")).round();
    assert_eq!((&whole["name"], idle), (&"Blue".into(), 900.0));
    assert_eq!(whole["problems"], serde_json::json!(["It holds more than one build; only the first was read."]));
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
        "- Redline: 7000 min⁻¹ (demo car: 6800 min⁻¹)",
        "Note: three speeds",
        "#1.1/car.gears=1.2.3/car.redline=7000/note=three-speeds/end",
    ] {
        assert!(text.contains(expected), "no “{expected}” in\n{text}");
    }
}

#[test]
fn what_the_demo_car_has_is_not_told_of_a_car_that_has_nothing_of_it() {
    let told = |link: &str| {
        let output = report(&["--text", link], "");
        String::from_utf8(output.stdout).expect("text").replace(['\u{A0}', '\u{202F}'], " ")
    };
    let own = told("1.1/of-the-car=gone/car.redline=7000/clutch.margin-least=1.3/end");
    assert!(own.contains("- Redline: 7000 min⁻¹\n") && !own.contains("demo car"), "{own}");
    // Common practice is that of any car.
    assert!(own.contains("- Margin wanted: 1.3 (usual 1.2)"), "{own}");
    let demo = told("1.1/car.name=red-one/car.redline=7000/end");
    assert!(demo.contains("- Redline: 7000 min⁻¹ (demo car: 6800 min⁻¹)"), "{demo}");
}

#[test]
fn who_asks_for_help_gets_it() {
    for word in ["--help", "-h"] {
        let output = report(&[word], "");
        assert!(output.status.success() && String::from_utf8_lossy(&output.stdout).trim_end() == USAGE);
    }
}

#[test]
fn bench_prints_nanoseconds() {
    let output = report(&["--bench", "10", "1.1/end"], "");
    let text = String::from_utf8(output.stdout).expect("text");
    let number = text.trim().strip_suffix(" ns per evaluation").expect("so worded");
    assert!(number.parse::<f64>().expect("a number") > 0.0);
}

const USAGE: &str = "usage: report --method CALCULATOR, or report [--json|--text|--keys|--bench N|--sweep INPUT FROM TO N|--solve INPUT OUTPUT TARGET|--spread N [--of LIST]|--combine SHELF_FILE [--slots LIST] [--aims LIST] [--musts LIST]] LINK_OR_FILE (- reads standard input)";

#[test]
fn what_cannot_be_read_exits_with_two_and_one_line() {
    for (arguments, said) in [
        (["--json", "no link"].as_slice(), "“no link” is no build: a build's link has #1.1/ in it. Nor is there a file of that name."),
        (["-j", "1.1/end"].as_slice(), &format!("-j is not known; {USAGE}")),
        (["--json"].as_slice(), USAGE),
        (["--bench", "0", "1.1/end"].as_slice(), "--bench wants how many times to evaluate, such as --bench 100000."),
        (
            ["--sweep", "car.mass", "500", "1.1/end"].as_slice(),
            "--sweep wants an input, from, to and how many points, such as --sweep clutch.slave-bore 16 26 100.",
        ),
        (["--sweep", "car.moss", "500", "900", "9", "1.1/end"].as_slice(), "“car.moss” is no key of this build; --keys lists them."),
        (["--solve", "clutch.margin", "clutch.capacity", "300", "1.1/end"].as_slice(), "clutch.margin is no input that can be turned."),
        (["-"].as_slice(), "“” is no build: a build's link has #1.1/ in it."),
    ] {
        let output = report(arguments, "");
        assert_eq!(output.status.code(), Some(2));
        assert_eq!(String::from_utf8_lossy(&output.stderr).trim_end(), said);
        assert!(output.stdout.is_empty());
    }
    let folder = env!("CARGO_MANIFEST_DIR");
    let output = report(&["--json", folder], "");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.code() == Some(2) && said.starts_with(&format!("{folder} cannot be read: ")), "{said}");
}

/// Torque held is z·μ·F·(D + d)/4 of the clamp load: 2 · 0.27 · 0.378/4 to the newton.
const HELD_PER_NEWTON: f64 = 2.0 * 0.27 * 0.378 / 4.0;

#[test]
fn a_sweep_and_a_search_say_what_the_closed_form_says() {
    let found = json(&["--sweep", "clutch.clamp-load", "4000", "8 kN", "40", "1.1/end"], "");
    let numbers =
        |value: &Value| value.as_array().expect("numbers").iter().map(|number| number.as_f64().expect("a number")).collect::<Vec<_>>();
    let (at, held) = (numbers(&found["at"]), numbers(&found["outputs"]["clutch.capacity"]["values"]));
    assert!(at.len() <= 40 && at[0] == 4000.0 && *at.last().expect("points") == 8000.0 && at.len() == held.len());
    for (clamp, held) in at.iter().zip(held) {
        agrees_within(held, HELD_PER_NEWTON * clamp, 1e-12, "Shigley's uniform wear by hand");
    }
    assert_eq!(found["present"], 5000.0);
    // Margin 1.2 over 240 N·m is wanted: below that clamp load nothing is a band.
    let band = &found["bands"][0];
    let least = 1.2 * 240.0 / HELD_PER_NEWTON;
    assert_eq!(band["stopped_below_by"], "clutch.margin");
    let low = band["from"].as_f64().expect("a number");
    assert!(low >= least && low < least + 4000.0 / 256.0, "{low} for {least}");
    let found = json(&["--solve", "clutch.clamp-load", "clutch.capacity", "288", "1.1/end"], "");
    agrees_within(found["solutions"][0]["input"].as_f64().expect("a number"), least, 1e-12, "Shigley's uniform wear by hand");
    // Steps of 50 N on either side.
    let had: Vec<f64> = found["to_be_had"].as_array().expect("two").iter().map(|had| had["input"].as_f64().expect("a number")).collect();
    assert!(had.len() == 2 && had.iter().all(|clamp| clamp % 50.0 == 0.0 && (clamp - least).abs() < 50.0), "{had:?}");
}

#[test]
fn a_spread_of_a_line_has_the_lines_deviation() {
    // Clamp load ± 400 N at two sigma is 200 N; the margin is a line of it, over 240 N·m.
    let found = json(&["--spread", "20000", "1.1/clutch.clamp-load.pm=400/end"], "");
    let margin = &found["outputs"]["clutch.margin"];
    let deviation = HELD_PER_NEWTON * 200.0 / 240.0;
    let number = |name: &str| margin[name].as_f64().expect("a number");
    agrees_within(number("first_order_deviation"), deviation, 1e-9, "closed form");
    // Of a sample's deviation 1/√(2n) is chance: half a per cent.
    agrees_within(number("deviation"), deviation, 0.02, "closed form");
    agrees_within((number("q95") - number("q05")) / 2.0, 1.644_85 * deviation, 0.03, "normal quantile, NIST handbook, from memory");
    assert_eq!(margin["shares"][0]["input"], "clutch.clamp-load");
    assert_eq!(margin["beyond"][0]["limit"], "clutch.margin-least");
    // A list is typed with spaces too.
    let both = json(&["--spread", "20", "--of", "clutch.margin, clutch.capacity", "1.1/clutch.clamp-load.pm=400/end"], "");
    assert_eq!(both["outputs"].as_object().map(|outputs| outputs.len()), Some(2));
}

#[test]
fn a_search_of_the_demo_shelf_gives_links_that_come_to_what_it_says() {
    let shelf = concat!(env!("CARGO_MANIFEST_DIR"), "/../public/demo-shelf.json");
    let found =
        json(&["--combine", shelf, "--aims", "clutch.pedal-force,price:EUR", "--musts", "clutch.margin,clutch.pedal-left", "1.1/end"], "");
    assert_eq!(found["shelf_problems"], Value::Array(Vec::new()));
    let first = &found["front"][0];
    let link = first["link"].as_str().expect("a link");
    let whole = json(&["--json", link], "");
    let force = &whole["outputs"]["clutch.pedal-force"];
    assert_eq!(force["value"], first["figures"][0], "the figure is that of the link, to the bit");
    let slave = first["parts"]["slave-cylinder"].as_str().expect("searched");
    assert_eq!(whole["inputs"]["clutch.slave-bore"]["origin"], format!("part {slave}"));
}
