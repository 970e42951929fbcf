//! Which compiler makes the WebAssembly.
//!
//! In this order: one that already has the standard library for it; rustup's, when it can fetch the target; Debian's
//! packages with a standard library built once ([`crate::debian`]); else one sentence that says what to install.

use crate::{
    debian,
    steps::{Consent, read, run_within, step},
    workspace::Workspace,
};
use anyhow::{Result, bail};
use std::{
    env,
    ffi::OsString,
    fs,
    path::{Path, PathBuf},
    process::{Command, Stdio},
    time::{Duration, UNIX_EPOCH},
};

pub const TARGET: &str = "wasm32-unknown-unknown";

/// Set where rustup must not go to the network for the target.
const NO_RUSTUP_FETCH: &str = "TRIALFIT_NO_RUSTUP_FETCH";

const WHAT_TO_INSTALL: &str = "No compiler here has the standard library for wasm32-unknown-unknown: run \
    `rustup target add wasm32-unknown-unknown`, or on Debian run this as root so that it can install rustc-web.";

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Toolchain {
    /// The cargo that runs this program, and its compiler.
    Running,
    /// The distribution's own, in `/usr/bin`.
    System,
}

impl Toolchain {
    /// One that can build for [`TARGET`], fetched or built if need be.
    pub fn for_wasm(consent: Consent) -> Result<Self> {
        if let Some(ready) = [Self::Running, Self::System].into_iter().find(|toolchain| toolchain.is_ready()) {
            return Ok(ready);
        }
        if env::var_os(NO_RUSTUP_FETCH).is_none() && rustup(&["target", "add", TARGET]) && Self::Running.is_ready() {
            return Ok(Self::Running);
        }
        if debian::can_install() && debian::prepare(consent)? && Self::System.is_ready() {
            return Ok(Self::System);
        }
        bail!(WHAT_TO_INSTALL)
    }

    /// One that has `subcommand`, which rustup calls `component`: formatting and lints are not part of every installation.
    pub fn with_command(subcommand: &str, component: &str, consent: Consent) -> Result<Self> {
        let has = |toolchain: Self| answers(toolchain.cargo(subcommand).arg("--version"));
        let fetched = || env::var_os(NO_RUSTUP_FETCH).is_none() && rustup(&["component", "add", component]) && has(Self::Running);
        if has(Self::Running) || fetched() {
            return Ok(Self::Running);
        }
        if has(Self::System) || (debian::can_install() && debian::install(&debian::PACKAGES, consent)? && has(Self::System)) {
            return Ok(Self::System);
        }
        bail!("`cargo {subcommand}` is missing: run `rustup component add {component}`")
    }

    /// Cargo with `subcommand`, freed of what the cargo that runs this program has put into the environment: it speaks
    /// of another package and perhaps another compiler.
    #[must_use]
    pub fn cargo(self, subcommand: &str) -> Command {
        let mut command = match self {
            Self::Running => Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into())),
            // By its path: cargo looks for subcommands among rustup's first.
            Self::System if matches!(subcommand, "clippy" | "fmt") => Command::new(format!("/usr/bin/cargo-{subcommand}")),
            Self::System => Command::new("/usr/bin/cargo"),
        };
        for (name, _) in env::vars_os() {
            if name.to_str().is_some_and(|name| set_by_cargo(name) || (self == Self::System && set_by_rustup(name))) {
                command.env_remove(name);
            }
        }
        if self == Self::System {
            command.env("CARGO", "/usr/bin/cargo").env("RUSTC", "/usr/bin/rustc").env("PATH", system_path());
        }
        command.arg(subcommand);
        command
    }

    fn rustc(self) -> Command {
        match self {
            Self::Running => Command::new(env::var_os("RUSTC").unwrap_or_else(|| "rustc".into())),
            Self::System => {
                let mut command = Command::new("/usr/bin/rustc");
                command.env_remove("LD_LIBRARY_PATH");
                command
            }
        }
    }

    /// `rustc -vV`, the whole of it.
    pub fn version(self) -> Result<String> {
        read(self.rustc().arg("-vV"))
    }

    /// Recent enough for the workspace, with a standard library for [`TARGET`] that this very compiler made or came with.
    fn is_ready(self) -> bool {
        let Ok(version) = self.version() else {
            return false;
        };
        let Some(library) = self.library() else {
            return false;
        };
        let seeded_by = library.parent().and_then(Path::parent).map(|folder| fs::read_to_string(folder.join(debian::STAMP)));
        let stale = matches!(seeded_by, Some(Ok(stamp)) if stamp != version);
        recent_enough(&version, env!("CARGO_PKG_RUST_VERSION")) && !stale
    }

    /// The `core` of the standard library for [`TARGET`].
    fn library(self) -> Option<PathBuf> {
        let folder = read(self.rustc().args(["--print", "target-libdir", "--target", TARGET])).ok()?;
        let files = fs::read_dir(folder.trim()).ok()?;
        files.flatten().map(|file| file.path()).find(|path| {
            let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
            name.starts_with("libcore-") && name.ends_with(".rlib")
        })
    }

    /// Empties the wasm build folder when another compiler or another standard library filled it: cargo does not see
    /// that a standard library was replaced, and the build would fail with E0463.
    pub fn settle_into(self, workspace: &Workspace) -> Result<()> {
        let made = self.library().and_then(|library| fs::metadata(library).ok()?.modified().ok());
        let made = made.and_then(|time| time.duration_since(UNIX_EPOCH).ok()).unwrap_or_default().as_secs();
        let identity = format!("{}standard library of {made}\n", self.version()?);
        let folder = workspace.wasm_target();
        let stamp = folder.join("compiler");
        if fs::read_to_string(&stamp).is_ok_and(|old| old == identity) {
            return Ok(());
        }
        if folder.exists() {
            step("another compiler than last time: emptying the wasm build folder", || Ok(fs::remove_dir_all(&folder)?))?;
        }
        fs::create_dir_all(&folder)?;
        Ok(fs::write(stamp, identity)?)
    }
}

fn set_by_cargo(name: &str) -> bool {
    matches!(name, "CARGO" | "CARGO_MANIFEST_DIR" | "CARGO_MANIFEST_PATH" | "CARGO_CRATE_NAME" | "CARGO_PRIMARY_PACKAGE")
        || name.starts_with("CARGO_PKG_")
        || name.starts_with("CARGO_BIN_")
        || matches!(name, "RUSTC_WORKSPACE_WRAPPER" | "CLIPPY_ARGS")
}

fn set_by_rustup(name: &str) -> bool {
    // Cargo and rustup both add their compiler's libraries to the loader's path.
    matches!(name, "RUSTUP_TOOLCHAIN" | "RUST_RECURSION_COUNT" | "RUSTC" | "RUSTDOC" | "LD_LIBRARY_PATH")
}

fn system_path() -> OsString {
    let mut path = OsString::from("/usr/bin:");
    path.push(env::var_os("PATH").unwrap_or_default());
    path
}

/// Whether `rustc -vV`'s answer is of at least the `wanted` release.
fn recent_enough(version: &str, wanted: &str) -> bool {
    let minor = |text: &str| text.split('.').nth(1).and_then(|minor| minor.parse::<u32>().ok());
    let release = version.lines().find_map(|line| line.strip_prefix("release: ")).unwrap_or_default();
    minor(release) >= minor(wanted)
}

/// Asks rustup for something it may have to fetch. False if there is no rustup or it cannot.
fn rustup(arguments: &[&str]) -> bool {
    if !answers(Command::new("rustup").arg("--version")) {
        return false;
    }
    step(&format!("rustup {}", arguments.join(" ")), || run_within(Duration::from_secs(120), Command::new("rustup").args(arguments)))
        .inspect_err(|error| eprintln!("  {error}; going on without"))
        .is_ok()
}

fn answers(command: &mut Command) -> bool {
    command.stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok_and(|status| status.success())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_older_compiler_is_not_taken() {
        assert!(recent_enough("rustc 1.96.0\nrelease: 1.96.0\n", "1.88"));
        assert!(recent_enough("rustc 1.88.0\nrelease: 1.88.0\n", "1.88"));
        assert!(!recent_enough("rustc 1.63.0\nrelease: 1.63.0\n", "1.88"));
        assert!(!recent_enough("not a compiler", "1.88"));
    }

    #[test]
    fn the_child_does_not_inherit_what_cargo_says_of_this_package() {
        let removed =
            |toolchain: Toolchain, name: &str| toolchain.cargo("build").get_envs().any(|(key, value)| key == name && value.is_none());
        assert!(removed(Toolchain::Running, "CARGO_MANIFEST_DIR"));
        assert!(removed(Toolchain::System, "CARGO_PKG_NAME"));
        let system = Toolchain::System.cargo("clippy");
        assert_eq!(system.get_program(), "/usr/bin/cargo-clippy");
        assert!(system.get_envs().any(|(key, value)| key == "RUSTC" && value == Some("/usr/bin/rustc".as_ref())));
    }
}
