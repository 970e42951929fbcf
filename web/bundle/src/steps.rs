//! Long steps say that they began and how long they took; child processes fail with the command that failed.

use anyhow::{Context, Result, bail};
use std::{
    env,
    io::{self, BufRead, BufReader, IsTerminal, Write},
    process::{Command, ExitStatus, Stdio},
    thread::sleep,
    time::{Duration, Instant},
};

/// Runs `work`, with a line before and a line with the time after it.
pub fn step<T>(title: &str, work: impl FnOnce() -> Result<T>) -> Result<T> {
    eprintln!("› {title} …");
    let began = Instant::now();
    let result = work();
    let verb = if result.is_ok() { "done" } else { "failed" };
    eprintln!("  {title}: {verb} in {}", seconds(began.elapsed()));
    result
}

/// A duration as people read it: `0.4 s`, `2 min 5 s`.
#[must_use]
pub fn seconds(time: Duration) -> String {
    match time.as_secs() {
        0..100 => format!("{:.1} s", time.as_secs_f64()),
        whole => format!("{} min {} s", whole / 60, whole % 60),
    }
}

/// Runs a command with its output on screen.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| format!("could not start `{}`", shown(command)))?;
    check(command, status)
}

/// Runs a command with its output on screen, and gives how it ended and what it printed.
pub fn run_heard(command: &mut Command) -> Result<(Result<()>, String)> {
    let mut child = command.stdout(Stdio::piped()).spawn().with_context(|| format!("could not start `{}`", shown(command)))?;
    let mut said = String::new();
    for line in BufReader::new(child.stdout.take().context("no output")?).lines() {
        let line = line?;
        println!("{line}");
        said.push_str(&line);
        said.push('\n');
    }
    let status = child.wait()?;
    Ok((check(command, status), said))
}

/// Runs a command and gives what it printed.
pub fn read(command: &mut Command) -> Result<String> {
    let output = command.stderr(Stdio::null()).output().with_context(|| format!("could not start `{}`", shown(command)))?;
    check(command, output.status)?;
    String::from_utf8(output.stdout).with_context(|| format!("`{}` did not print text", shown(command)))
}

/// Runs a command that may hang (a network behind it), and ends it when its time is up.
pub fn run_within(limit: Duration, command: &mut Command) -> Result<()> {
    let mut child = command.stdin(Stdio::null()).spawn().with_context(|| format!("could not start `{}`", shown(command)))?;
    let began = Instant::now();
    loop {
        if let Some(status) = child.try_wait()? {
            return check(command, status);
        }
        if began.elapsed() > limit {
            child.kill()?;
            child.wait()?;
            bail!("`{}` was stopped after {}", shown(command), seconds(limit));
        }
        sleep(Duration::from_millis(100));
    }
}

fn check(command: &Command, status: ExitStatus) -> Result<()> {
    if !status.success() {
        bail!("`{}` failed ({status})", shown(command));
    }
    Ok(())
}

fn shown(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    words.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}

/// Who decides about installing things.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Consent {
    Given,
    Ask,
}

impl Consent {
    /// A machine that says `CI` is there to be installed on.
    #[must_use]
    pub fn from_environment() -> Self {
        if in_ci() { Self::Given } else { Self::Ask }
    }

    /// Whether to go ahead with `what`. Without anyone at a terminal the answer is no.
    pub fn to(self, what: &str) -> Result<bool> {
        if self == Self::Given {
            return Ok(true);
        }
        if !io::stdin().is_terminal() {
            eprintln!("{what}? Nobody is here to answer; say --yes to agree beforehand.");
            return Ok(false);
        }
        eprint!("{what}? [y/N] ");
        io::stderr().flush()?;
        let mut answer = String::new();
        io::stdin().lock().read_line(&mut answer)?;
        Ok(matches!(answer.trim(), "y" | "Y" | "yes"))
    }
}

/// Whether this runs unattended.
#[must_use]
pub fn in_ci() -> bool {
    env::var_os("CI").is_some_and(|value| !value.is_empty() && value != "false" && value != "0")
}
