//! The same digits everywhere: what the page works out as WebAssembly has the bits of what runs natively.

use crate::page::{quoted, with_app};
use anyhow::{Context, Result, bail, ensure};
use trialfit_core::plan::Plan;
use trialfit_core::share::bits;
use trialfit_tests::corpus;

/// What the module of the page, loaded already, makes of a link.
fn in_page(link: &str) -> String {
    format!("import(document.querySelector('link[rel=modulepreload]').href).then((app) => app.evaluated({}))", quoted(link))
}

#[tokio::test]
async fn the_page_works_out_the_same_bits() -> Result<()> {
    with_app("", async |session, _| {
        let plan = Plan::default();
        let links = corpus();
        ensure!(links.len() > 80);
        for link in links {
            let native = bits::of_link(&plan, &link)?;
            let page = session.awaited(&in_page(&link)).await?;
            let page = page.as_str().context("no text")?;
            if let Some((native, page)) = native.lines().zip(page.lines()).find(|(native, page)| native != page) {
                bail!("natively {native}, in the page {page}, of {link}");
            }
            ensure!(native == page, "one says more: {native}\n{page}");
        }
        Ok(())
    })
    .await
}
