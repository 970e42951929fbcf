//! Shelves published beside the app: a link names the one its parts are from, and whoever opens it needs nothing more.

use crate::page::with_app;
use anyhow::{Context, Result, ensure};
use trialfit_core::share::link;

const SLAVE: &str = "part.demo.slave-cylinder";
const CHOOSE: &str =
    "void ((it) => { it.value = [...it.options].at(-1).value; it.dispatchEvent(new Event('change', { bubbles: true })); })";

#[tokio::test]
async fn a_part_goes_by_link_with_where_its_shelf_is() -> Result<()> {
    with_app("#overview", async |session, _| {
        session.press("demo-shelf").await?;
        session.element(SLAVE).await?;
        session.value(&format!("{CHOOSE}(document.getElementById('{SLAVE}'))")).await?;
        session.until("!!document.querySelector('#parts .kit')").await?;
        let kit = session.string("document.querySelector('#parts .kit').textContent").await?;
        session.press("open-send").await?;
        let sent = session.field("send-link").await?;
        session.press("close-send").await?;
        ensure!(link::read(&sent)?.link.shelf == "demo-shelf.json", "{sent}");
        let fragment = sent.split_once('#').context("no fragment")?.1.to_owned();
        with_app(&format!("#{fragment}"), async |other, _| {
            // Name and price are the shelf's, which came of itself.
            other.until("!!document.querySelector('#parts .kit')").await?;
            let theirs = "document.querySelector('#parts .kit').textContent";
            other.until(&format!("{theirs} === {}", serde_json::json!(kit))).await?;
            // Sent on before anyone has kept it, and after.
            for keep in [false, true] {
                if keep {
                    other.value("void document.getElementById('take-theirs').click()").await?;
                    other.until("!document.getElementById('visit')").await?;
                }
                other.press("open-send").await?;
                let again = other.field("send-link").await?;
                ensure!(link::read(&again)?.link.shelf == "demo-shelf.json", "{again}");
                other.press("close-send").await?;
            }
            Ok(())
        })
        .await?;
        // Put away, it is named no more: its parts stay fitted.
        session.value("void document.querySelector('[data-shelf=demo] > .acts button:last-child').click()").await?;
        session.press("open-send").await?;
        let without = session.field("send-link").await?;
        let opened = link::read(&without)?.link;
        ensure!(opened.shelf.is_empty() && opened.build.parts().len() == 1, "{without}");
        session.press("close-send").await
    })
    .await
}

/// A file chosen to be opened as a shelf.
const FILE: &str = "void ((it) => { const files = new DataTransfer(); files.items.add(new File([TEXT], 'ours.json')); \
    it.files = files.files; it.dispatchEvent(new Event('change', { bubbles: true })); })(document.getElementById('open-shelf'))";

#[tokio::test]
async fn a_mended_file_is_opened_again_and_a_huge_one_never_read() -> Result<()> {
    with_app("#overview", async |session, _| {
        session.element("open-shelf").await?;
        let text = r#"'{"trialfit-shelf":1,"id":"ours","name":"Ours","slots":[],"parts":[]}'"#;
        session.value(&FILE.replace("TEXT", text)).await?;
        session.until("!!document.querySelector('[data-shelf=ours]')").await?;
        // With a name left in it the browser would not hear of the same file again.
        ensure!(session.string("document.getElementById('open-shelf').value").await?.is_empty());
        session.value("void (Blob.prototype.text = () => { window.read = true; return Promise.resolve('') })").await?;
        session.value(&FILE.replace("TEXT", "new Uint8Array(3e6)")).await?;
        session.until("document.querySelector('#parts > .problem')?.textContent.includes('too long for a shelf')").await?;
        session.until("!window.read").await
    })
    .await
}
