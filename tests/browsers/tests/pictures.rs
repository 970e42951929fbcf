//! Pictures of every screen for the README: `cargo verify --only pictures`.

use crate::page::with_app;
use crate::session::Session;
use anyhow::Result;
use std::{fs, path::Path};

const SCREENS: [&str; 5] = ["car", "front-drive", "clutch", "flywheel", "wiring"];

/// Waits until charts are drawn and nothing moves, then keeps what is on the screen.
async fn take(session: &Session, name: &str) -> Result<()> {
    session.until("document.getAnimations().every((it) => it.playState !== 'running')").await?;
    let picture = session.driver.screenshot_as_png().await?;
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("pictures");
    fs::create_dir_all(&folder)?;
    fs::write(folder.join(format!("{name}.png")), picture)?;
    Ok(())
}

#[tokio::test]
#[ignore = "makes pictures; no check"]
async fn pictures() -> Result<()> {
    with_app("", async |session, _| {
        session.prefer("light").await?;
        session.screen(360, 740, 1).await?;
        for screen in SCREENS {
            session.go(screen).await?;
            take(session, screen).await?;
        }
        Ok(())
    })
    .await
}
