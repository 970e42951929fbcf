//! Debian's compiler (package `rustc-web`) and the standard library it lacks.
//!
//! Debian packages no wasm32 standard library for that compiler, but it packages the source. Built once into the
//! compiler's own folder, it serves every later build with plain cargo, as after `rustup target add`.

use crate::{
    steps::{Consent, read, run, step},
    toolchain::{TARGET, Toolchain},
};
use anyhow::{Context, Result};
use std::{
    env, fs,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

/// Beside the library it names the compiler that built it; after an upgrade the two no longer fit.
pub(crate) const STAMP: &str = "built-by";

/// The compiler, cargo, linker, library source, lints and formatter.
pub(crate) const PACKAGES: [&str; 8] =
    ["rustc-web", "cargo-web", "rust-web-src", "libstd-rust-web-dev", "rust-web-llvm", "lld-22", "rust-web-clippy", "rustfmt-web"];

/// Whether this is a machine with `apt-get` and a user allowed to use it.
#[must_use]
pub fn can_install() -> bool {
    Path::new("/usr/bin/apt-get").exists() && read(Command::new("id").arg("-u")).is_ok_and(|user| user.trim() == "0")
}

/// Installs what is missing of `packages`, if agreed. False if it was not.
pub fn install(packages: &[&str], consent: Consent) -> Result<bool> {
    if installed(packages) {
        return Ok(true);
    }
    let names = packages.join(" ");
    if !consent.to(&format!("Install {names} with apt-get"))? {
        return Ok(false);
    }
    step(&format!("installing {names}"), || {
        let apt = |arguments: &[&str]| run(Command::new("apt-get").env("DEBIAN_FRONTEND", "noninteractive").args(arguments));
        apt(&["update", "-q"])?;
        let mut all = vec!["install", "-y", "-q", "--no-install-recommends"];
        all.extend(packages);
        apt(&all)
    })?;
    Ok(true)
}

fn installed(packages: &[&str]) -> bool {
    let status = read(Command::new("dpkg-query").args(["-W", "-f", "${db:Status-Status}\n"]).args(packages));
    status.is_ok_and(|lines| lines.lines().all(|line| line == "installed"))
}

/// Gets the compiler and builds the library, whichever is missing. False if installing was refused.
pub(crate) fn prepare(consent: Consent) -> Result<bool> {
    if !install(&PACKAGES, consent)? {
        return Ok(false);
    }
    step("building the wasm32 standard library, once for this machine", build_library)?;
    Ok(true)
}

fn build_library() -> Result<()> {
    let version = Toolchain::System.version()?;
    let scratch = env::temp_dir().join(format!("trialfit-std-{}", std::process::id()));
    let result = build_library_in(&scratch, &version);
    fs::remove_dir_all(&scratch).ok();
    result
}

fn build_library_in(scratch: &Path, version: &str) -> Result<()> {
    fs::create_dir_all(scratch.join("src"))?;
    fs::write(scratch.join("src/lib.rs"), "")?;
    let manifest = "[package]\nname = \"seed\"\nversion = \"0.0.0\"\nedition = \"2024\"\n[workspace]\n";
    fs::write(scratch.join("Cargo.toml"), manifest)?;
    // With bitcode, or link-time optimisation over it fails; one unit, as its users build.
    let built = run(Toolchain::System
        .cargo("build")
        .current_dir(scratch)
        .env("CARGO_TARGET_DIR", scratch.join("target"))
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTFLAGS", "-Cembed-bitcode=yes -Ccodegen-units=1")
        .args(["--release", "--target", TARGET, "-Zbuild-std=std,panic_abort,proc_macro"])
        .stdout(Stdio::null()));
    built.context("the standard library's source did not build")?;

    let sysroot = PathBuf::from(read(Command::new("/usr/bin/rustc").args(["--print", "sysroot"]))?.trim());
    let home = sysroot.join("lib/rustlib").join(TARGET);
    // Filled beside its place and then moved there: another build may be looking.
    let fresh = home.with_extension(format!("new-{}", std::process::id()));
    fs::create_dir_all(fresh.join("lib"))?;
    for file in fs::read_dir(scratch.join("target").join(TARGET).join("release/deps"))? {
        let (path, name) = file.map(|file| (file.path(), file.file_name()))?;
        let shown = name.to_string_lossy();
        if shown.ends_with(".rlib") && !shown.starts_with("libseed") {
            fs::copy(path, fresh.join("lib").join(name))?;
        }
    }
    fs::write(fresh.join(STAMP), version)?;
    if home.exists() {
        fs::remove_dir_all(&home)?;
    }
    Ok(fs::rename(fresh, home)?)
}
