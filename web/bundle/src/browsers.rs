//! What the browser tests need from outside: a browser, its driver, and the rules of accessibility.

use crate::{
    debian,
    steps::{Consent, in_ci, run, step},
    toolchain::Toolchain,
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

/// The two further engines, and a screen for the one that does not do without.
const FURTHER: [&str; 3] = ["firefox-esr", "webkit2gtk-driver", "xvfb"];

/// Firefox' driver, which Debian does not have.
const GECKODRIVER: &str = "0.37.1";

/// A variable of the tests' environment, and what it names.
type Named = (&'static str, PathBuf);

/// What was found, and how the tests are told of it.
#[derive(Debug)]
pub struct Browsers {
    pub(crate) chromium: PathBuf,
    driver: PathBuf,
    /// Missing at a desk without node; the tests then leave those checks out.
    axe: Option<PathBuf>,
    /// What tells the tests of the further engines that are here; at a desk one may be missing.
    further: Vec<Named>,
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
        Ok(Self { chromium, driver, axe: axe(workspace, consent)?, further: further(workspace, consent)? })
    }

    /// Puts the paths into the environment of `tests`.
    pub fn tell<'a>(&self, tests: &'a mut Command) -> &'a mut Command {
        tests.env("TRIALFIT_CHROMIUM", &self.chromium).env("TRIALFIT_CHROMEDRIVER", &self.driver);
        tests.envs(self.further.iter().map(|(variable, path)| (variable, path)));
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

/// Firefox and WebKit with what drives them, each as far as it can be had.
fn further(workspace: &Workspace, consent: Consent) -> Result<Vec<Named>> {
    let all_here = || find_firefox().is_some() && find_webkit().is_some();
    if !all_here() && debian::can_install() {
        debian::install(&FURTHER, consent)?;
    }
    let mut found = Vec::new();
    let firefox = match find_firefox() {
        Some(firefox) => Some(vec![firefox, ("TRIALFIT_GECKODRIVER", geckodriver(workspace)?)]),
        None => None,
    };
    take(&mut found, "FIREFOX", "Firefox (on Debian: firefox-esr)", firefox)?;
    take(&mut found, "WEBKIT", "WebKitGTK's driver and Xvfb (on Debian: webkit2gtk-driver xvfb)", find_webkit())?;
    Ok(found)
}

/// Adds an engine that was found; says that one was not, which in CI is a failure.
fn take(found: &mut Vec<Named>, engine: &str, install: &str, paths: Option<Vec<Named>>) -> Result<()> {
    ensure!(paths.is_some() || !in_ci(), "the app is to be tried in {engine} too: install {install}");
    match paths {
        Some(paths) => found.extend(paths),
        None => eprintln!("\n  !! THE APP IS NOT TRIED IN {engine}. Install {install} to have it tried.\n"),
    }
    Ok(())
}

fn find_firefox() -> Option<Named> {
    Some(("TRIALFIT_FIREFOX", find("TRIALFIT_FIREFOX", &["firefox-esr", "firefox"])?))
}

fn find_webkit() -> Option<Vec<Named>> {
    let driver = find("TRIALFIT_WEBKITDRIVER", &["WebKitWebDriver"])?;
    Some(vec![
        ("TRIALFIT_WEBKITDRIVER", driver),
        ("TRIALFIT_MINIBROWSER", find("TRIALFIT_MINIBROWSER", &[]).or_else(minibrowser)?),
        ("TRIALFIT_XVFB", find("TRIALFIT_XVFB", &["Xvfb"])?),
    ])
}

/// The browser that comes with WebKitGTK lies among its libraries.
fn minibrowser() -> Option<PathBuf> {
    let folders = |path: &Path| fs::read_dir(path).into_iter().flatten().flatten().map(|entry| entry.path());
    let libraries = ["/usr/lib", "/usr/libexec"].map(Path::new);
    let kept = libraries.iter().flat_map(|path| folders(path)).chain(libraries.map(Path::to_owned));
    let mut browsers: Vec<PathBuf> = kept
        .flat_map(|path| ["webkit2gtk-4.1", "webkit2gtk-4.0"].map(|release| path.join(release).join("MiniBrowser")))
        .filter(|file| file.is_file())
        .collect();
    browsers.sort();
    browsers.pop()
}

/// On the path, or built once with cargo.
fn geckodriver(workspace: &Workspace) -> Result<PathBuf> {
    if let Some(driver) = find("TRIALFIT_GECKODRIVER", &["geckodriver"]) {
        return Ok(driver);
    }
    let folder = workspace.target.join("tools");
    let driver = folder.join(format!("bin/geckodriver{}", env::consts::EXE_SUFFIX));
    if !driver.is_file() {
        step("building Firefox' driver with cargo, once", || {
            let mut cargo = Toolchain::Running.cargo("install");
            run(cargo.args(["geckodriver", "--locked", "--version", GECKODRIVER, "--root"]).arg(&folder))
        })?;
    }
    Ok(driver)
}

/// The script with the accessibility rules.
fn axe(workspace: &Workspace, consent: Consent) -> Result<Option<PathBuf>> {
    let modules = node_modules(workspace, consent)?;
    if modules.is_none() {
        eprintln!("\n  !! No npm here: ACCESSIBILITY IS NOT CHECKED. Install node to have it checked.\n");
    }
    Ok(modules.map(|folder| folder.join("axe-core/axe.min.js")))
}

/// What comes from npm, fetched once at the versions of `tests/package-lock.json`; nothing at a desk without npm.
pub(crate) fn node_modules(workspace: &Workspace, consent: Consent) -> Result<Option<PathBuf>> {
    let folder = workspace.target.join("npm");
    let modules = folder.join("node_modules");
    let lock = workspace.root.join("tests/package-lock.json");
    // Copied there with what it brought, so that a change of version is seen.
    let done = folder.join("package-lock.json");
    if modules.is_dir() && same(&lock, &done) {
        return Ok(Some(modules));
    }
    if !has_npm() && debian::can_install() {
        debian::install(&["npm"], consent)?;
    }
    if !has_npm() {
        ensure!(!in_ci(), "node's npm is missing: without it accessibility and speed are not checked");
        return Ok(None);
    }
    step("fetching the accessibility rules and the speed audit with npm", || {
        fs::create_dir_all(&folder)?;
        fs::copy(workspace.root.join("tests/package.json"), folder.join("package.json"))?;
        fs::copy(&lock, &done)?;
        let arguments = ["ci", "--ignore-scripts", "--no-audit", "--no-fund"];
        let fetched = run(Command::new("npm").current_dir(&folder).args(arguments));
        fetched.inspect_err(|_| drop(fs::remove_file(&done)))
    })?;
    Ok(Some(modules))
}

fn has_npm() -> bool {
    let asked = Command::new("npm").arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status();
    asked.is_ok_and(|status| status.success())
}

fn same(one: &Path, other: &Path) -> bool {
    matches!((fs::read(one), fs::read(other)), (Ok(one), Ok(other)) if one == other)
}
