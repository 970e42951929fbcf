//! Every check, one after the other, with the time each took.
//!
//! A stage that fails does not keep the next from running, except where the next could not: what does not compile is
//! not tested, what is not built is not shown to a browser.

use crate::{
    browsers::Browsers,
    budget::FIRST_VISIT,
    build::{Purpose, build, wasm_cargo},
    lighthouse::audit,
    steps::{Consent, run, run_heard, seconds},
    toolchain::Toolchain,
    workspace::Workspace,
};
use anyhow::{Context, Result, ensure};
use std::{
    process::Command,
    str::FromStr,
    time::{Duration, Instant},
};

/// What is native and needs no browser.
const NATIVE: [&str; 3] = ["--workspace", "--exclude", "trialfit-web"];

/// The test targets that need a browser; `test = false` in their manifest keeps them out of a plain `cargo test`.
const IN_BROWSER: [&str; 1] = ["browsers"];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    Format,
    Clippy,
    Tests,
    ClippyWasm,
    Build,
    Browsers,
    Lighthouse,
    /// Makes the README's pictures and those that screens are compared with again; checks nothing, so only when asked for.
    Pictures,
}

impl Stage {
    pub const ALL: [Self; 7] = [Self::Format, Self::Clippy, Self::Tests, Self::ClippyWasm, Self::Build, Self::Browsers, Self::Lighthouse];

    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Format => "format",
            Self::Clippy => "clippy",
            Self::Tests => "tests",
            Self::ClippyWasm => "clippy-wasm",
            Self::Build => "build",
            Self::Browsers => "browsers",
            Self::Lighthouse => "lighthouse",
            Self::Pictures => "pictures",
        }
    }

    fn run(self, workspace: &Workspace, consent: Consent) -> Result<(), Failure> {
        match self {
            Self::Format => format(workspace, consent).map_err(Failure::goes_on),
            Self::Clippy => clippy(workspace, consent).map_err(Failure::goes_on),
            Self::Tests => {
                // Compiled first: if that fails there is no point in anything else.
                native_test(workspace, &["--no-run"]).map_err(Failure::ends)?;
                native_test(workspace, &["--no-fail-fast"]).map_err(Failure::goes_on)?;
                page_test(workspace).map_err(Failure::goes_on)
            }
            Self::ClippyWasm => clippy_wasm(workspace, consent).map_err(Failure::goes_on),
            Self::Build => {
                let first_visit = build(workspace, Purpose::Publish, consent).map_err(Failure::ends)?;
                println!("{first_visit}");
                let over = first_visit.total().saturating_sub(FIRST_VISIT);
                ensure_fits(over).map_err(Failure::goes_on)
            }
            Self::Browsers => browsers(workspace, consent).map_err(Failure::goes_on),
            Self::Lighthouse => audit(workspace, consent).map_err(Failure::goes_on),
            Self::Pictures => pictures(workspace, consent).map_err(Failure::goes_on),
        }
    }
}

impl FromStr for Stage {
    type Err = anyhow::Error;

    fn from_str(text: &str) -> Result<Self> {
        let names = Self::ALL.map(Self::name).join(", ");
        let stage = Self::ALL.into_iter().chain([Self::Pictures]).find(|stage| stage.name() == text);
        stage.with_context(|| format!("“{text}” is not a stage; these are: {names}"))
    }
}

struct Failure {
    why: anyhow::Error,
    ends_all: bool,
}

impl Failure {
    fn goes_on(why: anyhow::Error) -> Self {
        Self { why, ends_all: false }
    }

    fn ends(why: anyhow::Error) -> Self {
        Self { why, ends_all: true }
    }
}

/// Runs `stages` and prints how each went. True if all passed.
pub fn verify(workspace: &Workspace, stages: &[Stage], consent: Consent) -> bool {
    let began = Instant::now();
    let mut rows = Vec::new();
    let mut ended = false;
    for stage in stages {
        if ended {
            rows.push((stage.name(), "not run", Duration::ZERO));
            continue;
        }
        eprintln!("\n══ {} ══", stage.name());
        let began = Instant::now();
        let result = stage.run(workspace, consent);
        let time = began.elapsed();
        if let Err(Failure { why, ends_all }) = &result {
            eprintln!("{}: {why:#}", stage.name());
            ended = *ends_all;
        }
        let word = if result.is_ok() { "passed" } else { "FAILED" };
        eprintln!("── {} {word} in {}", stage.name(), seconds(time));
        rows.push((stage.name(), word, time));
    }
    println!();
    for (name, word, time) in &rows {
        println!("{name:<12} {word:<8} {:>12}", seconds(*time));
    }
    let passed = rows.iter().all(|(_, word, _)| *word == "passed");
    println!("{:<12} {:<8} {:>12}", "verify", if passed { "passed" } else { "FAILED" }, seconds(began.elapsed()));
    passed
}

fn format(workspace: &Workspace, consent: Consent) -> Result<()> {
    let toolchain = Toolchain::with_command("fmt", "rustfmt", consent)?;
    run(toolchain.cargo("fmt").current_dir(&workspace.root).args(["--all", "--check"]))
}

fn clippy(workspace: &Workspace, consent: Consent) -> Result<()> {
    let toolchain = Toolchain::with_command("clippy", "clippy", consent)?;
    let lint = |targets: &[&str]| {
        let mut command = toolchain.cargo("clippy");
        if toolchain == Toolchain::System {
            command.env("CARGO_TARGET_DIR", workspace.wasm_target());
        }
        command.current_dir(&workspace.root).args(NATIVE).args(targets).args(["--", "-D", "warnings"]);
        run(&mut command)
    };
    lint(&["--all-targets"])?;
    // Not among all targets, as they are kept out of a plain `cargo test`.
    lint(&in_browser())
}

fn clippy_wasm(workspace: &Workspace, consent: Consent) -> Result<()> {
    let toolchain = Toolchain::for_wasm(consent)?;
    toolchain.settle_into(workspace)?;
    let mut command = wasm_cargo(workspace, toolchain, "clippy");
    run(command.args(["--package", "trialfit-web", "--", "-D", "warnings"]))
}

fn ensure_fits(over: usize) -> Result<()> {
    ensure!(over == 0, "the first visit is {over} bytes over its budget of {FIRST_VISIT}");
    Ok(())
}

/// So many failures are none of chance.
const BY_CHANCE: usize = 3;

/// A browser on a busy machine now and then goes, or looks for no newer version however often it is asked to. So what
/// failed is tried again, once, alone; that it failed at first is told.
fn browsers(workspace: &Workspace, consent: Consent) -> Result<()> {
    let told = built_in_browser(workspace, consent)?;
    let (result, said) = run_heard(&mut told(&[]))?;
    let failed = failed_tests(&said);
    if result.is_ok() || failed.is_empty() || failed.len() > BY_CHANCE {
        return result;
    }
    eprintln!("\n› again, alone: {}", failed.join(", "));
    run(&mut told(&[&["--", "--exact", "--test-threads=1"], &failed[..]].concat()))?;
    eprintln!("\n  !! FAILED AT FIRST, passed alone: {}\n", failed.join(", "));
    Ok(())
}

fn pictures(workspace: &Workspace, consent: Consent) -> Result<()> {
    run(&mut built_in_browser(workspace, consent)?(&["--", "--ignored", "--exact", "pictures::pictures"]))
}

/// Builds the app and finds the browsers; what it gives makes the command that tests the one in the others.
fn built_in_browser(workspace: &Workspace, consent: Consent) -> Result<impl Fn(&[&str]) -> Command> {
    build(workspace, Purpose::Publish, consent)?;
    let browsers = Browsers::prepare(workspace, consent)?;
    Ok(move |arguments: &[&str]| {
        let mut command = native_test_command(workspace);
        browsers.tell(command.args(in_browser()).args(arguments).env("TRIALFIT_DIST", workspace.dist()));
        command
    })
}

/// The names of the tests that failed, by what the test harness printed; none if it did not come to its end, since the
/// rest were not run then.
fn failed_tests(said: &str) -> Vec<&str> {
    let failed: Vec<_> = said.lines().filter_map(|line| line.strip_prefix("test ")?.strip_suffix(" ... FAILED")).collect();
    let summed_up = format!("; {} failed; ", failed.len());
    let ended = said.lines().any(|line| line.starts_with("test result: FAILED. ") && line.contains(&summed_up));
    if ended { failed } else { Vec::new() }
}

fn native_test(workspace: &Workspace, arguments: &[&str]) -> Result<()> {
    run(native_test_command(workspace).args(arguments))
}

/// What of the page is plain functions; by itself, since what it leans on has other features there.
fn page_test(workspace: &Workspace) -> Result<()> {
    let mut command = Toolchain::Running.cargo("test");
    run(command.current_dir(&workspace.root).args(["--package", "trialfit-web", "--lib"]))
}

/// The same packages each time, so that their dependencies have the same features and are built once.
fn native_test_command(workspace: &Workspace) -> Command {
    let mut command = Toolchain::Running.cargo("test");
    command.current_dir(&workspace.root).args(NATIVE);
    command
}

fn in_browser() -> Vec<&'static str> {
    IN_BROWSER.iter().flat_map(|name| ["--test", name]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn failures_are_read_by_their_names() {
        let cut_short = "running 4 tests\ntest a::b ... ok\ntest a::c ... FAILED\ntest d ... ignored\n\
            test e has been running for over 60 seconds\ntest e ... FAILED\n\nfailures:\n    a::c\n    e\n";
        assert!(failed_tests(cut_short).is_empty());
        let whole =
            format!("{cut_short}\ntest result: FAILED. 1 passed; 2 failed; 1 ignored; 0 measured; 0 filtered out; finished in 1s\n");
        assert_eq!(failed_tests(&whole), ["a::c", "e"]);
    }

    #[test]
    fn stages_are_read_by_their_names() {
        for stage in Stage::ALL {
            assert_eq!(stage.name().parse::<Stage>().unwrap(), stage);
        }
        let problem = "speed".parse::<Stage>().unwrap_err().to_string();
        assert_eq!(problem, "“speed” is not a stage; these are: format, clippy, tests, clippy-wasm, build, browsers, lighthouse");
    }

    #[test]
    fn a_byte_over_the_budget_is_told() {
        assert!(ensure_fits(0).is_ok());
        assert_eq!(ensure_fits(1).unwrap_err().to_string(), format!("the first visit is 1 bytes over its budget of {FIRST_VISIT}"));
    }
}
