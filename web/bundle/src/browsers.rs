//! What the browser tests need from outside: a browser, its driver, and the rules of accessibility.

use crate::{
    debian,
    steps::{Consent, in_ci, run, step},
    workspace::Workspace,
};
use anyhow::{Context, Result, ensure};
use std::{
    env, fs,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

/// Chromium, the driver of the same release, and letters to write with.
const PACKAGES: [&str; 3] = ["chromium", "chromium-driver", "fonts-dejavu"];

/// What was found, and how the tests are told of it.
#[derive(Debug)]
pub struct Browsers {
    chromium: PathBuf,
    driver: PathBuf,
    /// Missing at a desk without node; the tests then leave those checks out.
    axe: Option<PathBuf>,
}

impl Browsers {
    /// Finds everything, or gets it where that is possible.
    pub fn prepare(workspace: &Workspace, consent: Consent) -> Result<Self> {
        if (find_chromium().is_none() || find_driver().is_none() || in_ci()) && debian::can_install() {
            debian::install(&PACKAGES, consent)?;
        }
        let sentence = "install Chromium and its chromedriver (on Debian: chromium chromium-driver fonts-dejavu), or \
            name them in TRIALFIT_CHROMIUM and TRIALFIT_CHROMEDRIVER";
        let chromium = find_chromium().context(sentence)?;
        let driver = find_driver().context(sentence)?;
        Ok(Self { chromium, driver, axe: axe(workspace, consent)? })
    }

    /// Puts the paths into the environment of `tests`.
    pub fn tell<'a>(&self, tests: &'a mut Command) -> &'a mut Command {
        tests.env("TRIALFIT_CHROMIUM", &self.chromium).env("TRIALFIT_CHROMEDRIVER", &self.driver);
        match &self.axe {
            Some(axe) => tests.env("TRIALFIT_AXE", axe),
            None => tests.env_remove("TRIALFIT_AXE"),
        }
    }
}

fn find_chromium() -> Option<PathBuf> {
    find("TRIALFIT_CHROMIUM", &["chromium", "chromium-browser", "google-chrome"])
}

fn find_driver() -> Option<PathBuf> {
    find("TRIALFIT_CHROMEDRIVER", &["chromedriver"])
}

/// The file `variable` names, else the first of `names` on the path.
fn find(variable: &str, names: &[&str]) -> Option<PathBuf> {
    if let Some(named) = env::var_os(variable).map(PathBuf::from) {
        return named.is_file().then_some(named);
    }
    let path = env::var_os("PATH")?;
    names.iter().find_map(|name| env::split_paths(&path).map(|folder| folder.join(name)).find(|file| file.is_file()))
}

/// The script with the accessibility rules, fetched once through npm at the version of `tests/package-lock.json`.
fn axe(workspace: &Workspace, consent: Consent) -> Result<Option<PathBuf>> {
    let folder = workspace.target.join("npm");
    let script = folder.join("node_modules/axe-core/axe.min.js");
    let lock = workspace.root.join("tests/package-lock.json");
    // Copied there with what it brought, so that a change of version is seen.
    let done = folder.join("package-lock.json");
    if script.is_file() && same(&lock, &done) {
        return Ok(Some(script));
    }
    if !has_npm() && debian::can_install() {
        debian::install(&["npm"], consent)?;
    }
    if !has_npm() {
        ensure!(!in_ci(), "node's npm is missing: without it accessibility is not checked");
        eprintln!("\n  !! No npm here: ACCESSIBILITY IS NOT CHECKED. Install node to have it checked.\n");
        return Ok(None);
    }
    step("fetching the accessibility rules with npm", || {
        fs::create_dir_all(&folder)?;
        fs::copy(workspace.root.join("tests/package.json"), folder.join("package.json"))?;
        fs::copy(&lock, &done)?;
        let arguments = ["ci", "--ignore-scripts", "--no-audit", "--no-fund"];
        let fetched = run(Command::new("npm").current_dir(&folder).args(arguments));
        fetched.inspect_err(|_| drop(fs::remove_file(&done)))
    })?;
    ensure!(script.is_file(), "npm did not bring {}", script.display());
    Ok(Some(script))
}

fn has_npm() -> bool {
    let asked = Command::new("npm").arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status();
    asked.is_ok_and(|status| status.success())
}

fn same(one: &Path, other: &Path) -> bool {
    matches!((fs::read(one), fs::read(other)), (Ok(one), Ok(other)) if one == other)
}
