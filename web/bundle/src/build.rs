//! One build: WebAssembly, its script, the folder.

use crate::{
    budget::{FirstVisit, Weight},
    dist::{self, Effort, Generated},
    naming::fingerprint,
    steps::{Consent, run, step},
    toolchain::{TARGET, Toolchain},
    workspace::Workspace,
};
use anyhow::{Context, Result};
use std::{
    env, fs,
    path::{Path, PathBuf},
};
use wasm_bindgen_cli_support::Bindgen;

/// What the app is built for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Small and compressed.
    Publish,
    /// Built in a few seconds after an edit; large, and not compressed.
    Desk,
}

/// Builds whatever is out of date and gives what a first visit loads.
pub fn build(workspace: &Workspace, purpose: Purpose, consent: Consent) -> Result<FirstVisit> {
    let toolchain = Toolchain::for_wasm(consent)?;
    toolchain.settle_into(workspace)?;
    let wasm = step("building the app", || compile(workspace, toolchain, purpose))?;
    let key = key(workspace, &wasm)?;
    let record = workspace.wasm_target().join("dist-record");
    if let Some(first_visit) = read_record(&record, &key, &workspace.dist()) {
        return Ok(first_visit);
    }
    step("bundling and compressing", || {
        fs::remove_file(&record).ok();
        let effort = if purpose == Purpose::Publish { Effort::Most } else { Effort::None };
        let files = dist::assemble(generate(&wasm)?, &workspace.public(), effort)?;
        dist::write(&files, &workspace.dist())?;
        let loaded = files.iter().filter(|file| file.name != "_headers" && !dist::is_beside(&file.name) && !dist::is_language(&file.name));
        let weights = loaded.map(|file| Weight { name: file.name.clone(), raw: file.body.len(), sent: file.sent() });
        let first_visit = FirstVisit(weights.collect());
        fs::write(&record, write_record(&key, &first_visit))?;
        Ok(first_visit)
    })
}

/// What the workspace's release profile builds for speed, for scripts and benchmarks, the phone gets small: a third of
/// the bytes, and still far faster than a finger.
const SMALL: [&str; 2] = ["profile.release.package.trialfit-core.opt-level='z'", "profile.release.package.libm.opt-level='z'"];

/// Compiles the page and gives the path of the WebAssembly.
fn compile(workspace: &Workspace, toolchain: Toolchain, purpose: Purpose) -> Result<PathBuf> {
    let profile = match purpose {
        Purpose::Publish => "release",
        Purpose::Desk => "wasm-desk",
    };
    let mut cargo = wasm_cargo(workspace, toolchain, "build");
    cargo.args(["--package", "trialfit-web", "--profile", profile]);
    if purpose == Purpose::Publish {
        cargo.args(SMALL.iter().flat_map(|setting| ["--config", setting]));
    }
    run(&mut cargo)?;
    Ok(workspace.wasm_target().join(TARGET).join(profile).join("trialfit-web.wasm"))
}

/// Cargo for [`TARGET`] in the folder kept for it. Paths of this machine stay out of what is shipped.
#[must_use]
pub fn wasm_cargo(workspace: &Workspace, toolchain: Toolchain, subcommand: &str) -> std::process::Command {
    let home =
        |name: &str, folder: &str| env::var_os(name).map(PathBuf::from).or_else(|| Some(env::home_dir()?.join(folder))).unwrap_or_default();
    let hidden = [(workspace.root.clone(), "trialfit"), (home("CARGO_HOME", ".cargo"), "cargo")];
    let hidden = hidden.map(|(path, name)| format!("--remap-path-prefix={}={name}", path.display()));
    let mut command = toolchain.cargo(subcommand);
    command
        .current_dir(&workspace.root)
        .env("CARGO_TARGET_DIR", workspace.wasm_target())
        .env("CARGO_ENCODED_RUSTFLAGS", hidden.join("\u{1f}"))
        .env_remove("RUSTFLAGS")
        .args(["--target", TARGET]);
    command
}

/// The script that loads the WebAssembly, and the WebAssembly fitted to it.
fn generate(wasm: &Path) -> Result<Generated> {
    let mut output = Bindgen::new()
        .input_path(wasm)
        .web(true)?
        .typescript(false)
        .out_name("app")
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate_output()?;
    let extra = output.snippets().values().any(|list| !list.is_empty()) || !output.local_modules().is_empty();
    anyhow::ensure!(!extra, "a crate brings a script of its own, which the bundle has no name for");
    Ok(Generated { script: output.js().to_owned(), wasm: output.wasm_mut().emit_wasm() })
}

/// What shapes a bundle besides its inputs: this code, and the versions it leans on.
const BUNDLER: [&str; 6] = [
    include_str!("build.rs"),
    include_str!("dist.rs"),
    include_str!("headers.rs"),
    include_str!("language.rs"),
    include_str!("naming.rs"),
    include_str!("../Cargo.toml"),
];

/// Of everything a bundle is made from: the WebAssembly, the public files, the bundler.
fn key(workspace: &Workspace, wasm: &Path) -> Result<String> {
    let mut inputs = fs::read(wasm).with_context(|| format!("{} cannot be read", wasm.display()))?;
    for folder in [workspace.public(), workspace.public().join("style"), workspace.public().join("languages")] {
        let mut paths = fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<Result<Vec<_>>>()?;
        paths.sort();
        for path in paths.iter().filter(|path| path.is_file()) {
            inputs.extend(path.to_string_lossy().bytes());
            inputs.extend(fs::read(path)?);
        }
    }
    inputs.extend(BUNDLER.concat().bytes());
    Ok(fingerprint(&inputs))
}

fn write_record(key: &str, FirstVisit(weights): &FirstVisit) -> String {
    let line = |Weight { name, raw, sent }: &Weight| format!("{name} {raw} {sent}\n");
    format!("{key}\n{}", weights.iter().map(line).collect::<String>())
}

/// What the last bundle weighed, if it was made from the same and is still there.
fn read_record(record: &Path, key: &str, dist: &Path) -> Option<FirstVisit> {
    let text = fs::read_to_string(record).ok()?;
    let mut lines = text.lines();
    if lines.next()? != key {
        return None;
    }
    let weight = |line: &str| {
        let mut words = line.split(' ');
        let (name, raw, sent) = (words.next()?, words.next()?.parse().ok()?, words.next()?.parse().ok()?);
        let there = fs::metadata(dist.join(name)).is_ok_and(|file| file.len() == raw as u64);
        there.then(|| Weight { name: name.to_owned(), raw, sent })
    };
    lines.map(weight).collect::<Option<Vec<_>>>().map(FirstVisit)
}
