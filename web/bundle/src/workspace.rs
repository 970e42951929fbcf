//! Where things are.

use anyhow::{Result, ensure};
use std::{env, path::PathBuf};

/// The folders a build reads and writes.
#[derive(Debug, Clone)]
pub struct Workspace {
    pub root: PathBuf,
    /// Cargo's folder for native work.
    pub target: PathBuf,
}

impl Workspace {
    /// Finds the workspace from cargo's own environment, or from the current folder upwards.
    pub fn find() -> Result<Self> {
        let start = match env::var_os("CARGO_MANIFEST_DIR") {
            Some(folder) => PathBuf::from(folder),
            None => env::current_dir()?,
        };
        let root = start.ancestors().filter(|folder| folder.join("web/bundle/Cargo.toml").is_file()).last();
        ensure!(root.is_some(), "This is not inside the workspace: {} has no web/bundle above it.", start.display());
        let root = root.map(PathBuf::from).unwrap_or_default();
        let target = match env::var_os("CARGO_TARGET_DIR") {
            Some(folder) => env::current_dir()?.join(folder),
            None => root.join("target"),
        };
        Ok(Self { root, target })
    }

    /// The wasm build has a folder of its own, so that it and the native one neither lock nor rebuild each other.
    #[must_use]
    pub fn wasm_target(&self) -> PathBuf {
        self.target.join("wasm")
    }

    /// What a host serves.
    #[must_use]
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    #[must_use]
    pub fn public(&self) -> PathBuf {
        self.root.join("public")
    }
}
