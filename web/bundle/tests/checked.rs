//! `cargo app check` against folders as they should be served, and against hosts with one thing wrong.

use anyhow::{Context, Result, bail};
use std::{
    env, fs,
    io::{BufRead, BufReader, Write},
    net::{TcpListener, TcpStream},
    path::{Path, PathBuf},
    sync::Arc,
    thread,
};
use trialfit_bundle::{
    check::{Findings, check},
    dist::{Effort, File, Generated, assemble, write},
    headers::{ALWAYS, POLICY, cache_control},
    server::Server,
};

fn app() -> Result<Vec<File>> {
    let public = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../public");
    assemble(Generated { script: "export default 0; // ".repeat(200), wasm: vec![0; 4000] }, &public, Effort::Most)
}

/// A folder of its own for each test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        Self(env::temp_dir().join(format!("trialfit-checked-{}-{name}", std::process::id())))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

/// What a host is about to send for a file; a test bends it.
struct Sending {
    name: String,
    status: &'static str,
    headers: Vec<(String, String)>,
    body: Vec<u8>,
}

impl Sending {
    fn set(&mut self, header: &str, value: &str) {
        self.drop(header);
        self.headers.push((header.into(), value.into()));
    }

    fn drop(&mut self, header: &str) {
        self.headers.retain(|(name, _)| name != header);
    }
}

/// The address of a host that serves the app in a folder `tool/` as it should, but for what `bend` does to it.
fn host(bend: impl Fn(&mut Sending) + Send + Sync + 'static) -> Result<String> {
    let files = Arc::new(app()?);
    let bend = Arc::new(bend);
    let listener = TcpListener::bind("127.0.0.1:0")?;
    let address = format!("http://{}/tool/", listener.local_addr()?);
    // Ends with the test's process.
    thread::spawn(move || {
        for stream in listener.incoming().flatten() {
            let (files, bend) = (files.clone(), bend.clone());
            thread::spawn(move || answer(stream, &files, &*bend));
        }
    });
    Ok(address)
}

fn answer(mut stream: TcpStream, files: &[File], bend: &dyn Fn(&mut Sending)) -> Result<()> {
    let mut lines = BufReader::new(stream.try_clone()?).lines();
    let asked = lines.next().context("nothing asked")??;
    for line in lines {
        if line?.is_empty() {
            break;
        }
    }
    let path = asked.split(' ').nth(1).context("no path")?;
    let name = path.strip_prefix("/tool/").unwrap_or("elsewhere");
    let name = if name.is_empty() { "index.html" } else { name };
    let mut sending = Sending { name: name.into(), status: "404 Not Found", headers: Vec::new(), body: b"not here".to_vec() };
    if let Some(file) = files.iter().find(|file| file.name == name) {
        sending.status = "200 OK";
        sending.set("cache-control", cache_control(name));
        sending.set("content-type", kind(name)?);
        sending.body = file.body.clone();
        if let Some(packed) = &file.gzip {
            sending.body = packed.clone();
            sending.set("content-encoding", "gzip");
        }
        for (header, value) in ALWAYS {
            sending.set(header, value);
        }
    }
    bend(&mut sending);
    sending.set("content-length", &sending.body.len().to_string());
    sending.set("connection", "close");
    write!(stream, "HTTP/1.1 {}\r\n", sending.status)?;
    for (header, value) in &sending.headers {
        write!(stream, "{header}: {value}\r\n")?;
    }
    stream.write_all(b"\r\n")?;
    Ok(stream.write_all(&sending.body)?)
}

fn kind(name: &str) -> Result<&'static str> {
    Ok(match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "application/javascript",
        Some("css") => "text/css",
        Some("wasm") => "application/wasm",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("txt") => "text/plain",
        Some("png") => "image/png",
        Some("json") => "application/json",
        _ => bail!("{name}"),
    })
}

/// The one thing that is wrong with a host, which must have `part` in it.
fn only(bend: impl Fn(&mut Sending) + Send + Sync + 'static, part: &str) -> Result<()> {
    let Findings { wrong, .. } = check(&host(bend)?)?;
    assert_eq!(wrong.len(), 1, "{part}: {wrong:#?}");
    assert!(wrong[0].contains(part), "{part}: {}", wrong[0]);
    Ok(())
}

#[test]
fn our_own_server_has_nothing_to_mend_at_the_root_and_in_a_folder() -> Result<()> {
    let site = Folder::new("site");
    write(&app()?, &site.0)?;
    write(&app()?, &site.0.join("tool"))?;
    let server = Server::start(&site.0, 0)?;
    for (address, folder) in [("", "/"), ("#1.1/end", "/"), ("index.html", "/"), ("tool/", "/tool/"), ("tool", "/tool/")] {
        let found = check(&format!("{}{address}", server.url()))?;
        assert!(found.wrong.is_empty(), "{address}: {:#?}", found.wrong);
        assert!(found.right.contains(&format!("it lies in {folder}")), "{address}: {:#?}", found.right);
        for said in ["the content-security policy is sent", "page and service worker are of one version", "what is not there is not found"]
        {
            assert!(found.right.iter().any(|line| line == said), "{said}: {:#?}", found.right);
        }
        let shown = found.to_string();
        assert!(shown.contains("\n  right  ") && shown.ends_with("Nothing to mend."), "{shown}");
    }
    Ok(())
}

#[test]
fn a_good_host_of_another_make_has_nothing_to_mend() -> Result<()> {
    let found = check(&host(|_| ())?)?;
    assert!(found.wrong.is_empty(), "{:#?}", found.wrong);
    // The policy in the page does where a host sends no headers of one's own.
    let found = check(&host(|it| it.drop("content-security-policy"))?)?;
    assert!(found.wrong.is_empty(), "{:#?}", found.wrong);
    assert!(found.right.iter().any(|line| line.starts_with("the content-security policy is in the page")));
    Ok(())
}

#[test]
fn a_build_for_the_desk_is_told_to_be_uncompressed() -> Result<()> {
    let folder = Folder::new("desk");
    let public = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../public");
    let files = assemble(Generated { script: "let a;".repeat(500), wasm: vec![0; 4000] }, &public, Effort::None)?;
    write(&files, &folder.0)?;
    let server = Server::start(&folder.0, 0)?;
    let found = check(&server.url())?;
    assert!(found.wrong.iter().all(|line| line.contains("comes uncompressed")), "{:#?}", found.wrong);
    assert!(found.wrong.iter().any(|line| line.contains("app_bg-")) && found.wrong.len() >= 3, "{:#?}", found.wrong);
    assert!(found.to_string().ends_with(" things to mend."));
    Ok(())
}

#[test]
fn a_file_that_is_missing_is_named() -> Result<()> {
    let folder = Folder::new("missing");
    let files = app()?;
    write(&files, &folder.0)?;
    let wasm = files.iter().find(|file| file.name.ends_with(".wasm")).context("no wasm")?;
    for twin in ["", ".br", ".gz"] {
        fs::remove_file(folder.0.join(format!("{}{twin}", wasm.name)))?;
    }
    let server = Server::start(&folder.0, 0)?;
    let wrong = check(&server.url())?.wrong;
    assert_eq!(wrong, [format!("{} answers 404. Publish the whole folder again, files before the page.", wasm.name)]);
    Ok(())
}

#[test]
fn wrong_types_are_named_with_the_right_ones() -> Result<()> {
    let wasm = |it: &mut Sending| {
        if it.name.ends_with(".wasm") {
            it.set("content-type", "application/octet-stream")
        }
    };
    only(wasm, "comes as application/octet-stream. Have the host send `content-type: application/wasm`.")?;
    let worker = |it: &mut Sending| {
        if it.name == "sw.js" {
            it.set("content-type", "text/plain")
        }
    };
    only(worker, "sw.js comes as text/plain. Have the host send `content-type: text/javascript`.")?;
    let page = |it: &mut Sending| {
        if it.name == "index.html" {
            it.drop("content-type")
        }
    };
    only(page, "index.html comes without a type. Have the host send `content-type: text/html`.")
}

#[test]
fn wrong_lifetimes_are_named() -> Result<()> {
    let page = |it: &mut Sending| {
        if it.name == "index.html" {
            it.set("cache-control", "public, max-age=3600")
        }
    };
    only(page, "index.html comes with `cache-control: public, max-age=3600`: newer versions are not seen.")?;
    let worker = |it: &mut Sending| {
        if it.name == "sw.js" {
            it.drop("cache-control")
        }
    };
    only(worker, "sw.js comes with no `cache-control`: newer versions are not seen. Send `cache-control: no-cache`.")?;
    let style = |it: &mut Sending| {
        if it.name.ends_with(".css") {
            it.set("cache-control", "max-age=600")
        }
    };
    only(style, "comes with `cache-control: max-age=600`. Send `cache-control: public, max-age=31536000, immutable`.")
}

#[test]
fn policies_that_are_missing_or_others_are_told() -> Result<()> {
    let other = |it: &mut Sending| {
        if it.name == "index.html" {
            it.set("content-security-policy", "default-src 'self'")
        }
    };
    only(
        other,
        &format!(
            "sends another content-security policy, `default-src 'self'`; where it is stricter the app does not start. Send `{POLICY}`"
        ),
    )?;
    only(|it| it.drop("x-content-type-options"), "Send `x-content-type-options: nosniff`")?;
    let none = |it: &mut Sending| {
        it.drop("content-security-policy");
        if it.name == "index.html" {
            it.drop("content-encoding");
            it.body = b"<html data-version=\"000000000000\"><script src=\"boot.js\">".to_vec();
        }
    };
    let wrong = check(&host(none)?)?.wrong;
    assert!(wrong.iter().any(|line| line.starts_with("there is no content-security policy")), "{wrong:#?}");
    assert!(wrong.iter().any(|line| line.contains("of two versions")), "{wrong:#?}");
    Ok(())
}

#[test]
fn what_keeps_it_from_use_offline_is_told() -> Result<()> {
    let half = |it: &mut Sending| {
        if it.name == "sw.js" {
            it.drop("content-encoding");
            it.body = b"const VERSION = 'feedfeedfeed';\nconst FILES = [\"icon.svg\"];".to_vec();
        }
    };
    let wrong = check(&host(half)?)?.wrong;
    assert!(wrong.iter().any(|line| line.contains("of two versions")), "{wrong:#?}");
    assert!(wrong.iter().any(|line| line == "icon.svg answers 404. Publish the whole folder again, files before the page."), "{wrong:#?}");
    let moved = |it: &mut Sending| {
        if it.name == "sw.js" {
            it.status = "302 Found";
            it.set("location", "/tool/index.html");
        }
    };
    let wrong = check(&host(moved)?)?.wrong;
    assert!(wrong.iter().any(|line| line.contains("is redirected to")), "{wrong:#?}");
    let everywhere = |it: &mut Sending| {
        if it.status == "404 Not Found" {
            it.status = "200 OK"
        }
    };
    only(everywhere, "a file that is not there answers 200")
}

#[test]
fn a_file_that_is_rewritten_on_the_way_is_told() -> Result<()> {
    let rewritten = |it: &mut Sending| {
        if it.name.starts_with("boot-") {
            it.drop("content-encoding");
            it.body = b"'use strict'".to_vec();
        }
    };
    only(rewritten, "is not what its name says")
}

#[test]
fn what_is_no_published_app_is_told_at_once() -> Result<()> {
    let other = host(|it| {
        it.drop("content-encoding");
        it.body = b"<html>somebody else's".to_vec();
    })?;
    let why = |address: &str| check(address).map(|found| found.to_string()).unwrap_err().to_string();
    assert!(why(&other).contains("but not with this app"), "{}", why(&other));
    assert!(why("example.org").contains("does not begin with https://"));
    let gone = host(|it| it.status = "403 Forbidden")?;
    assert!(why(&gone).contains("answers 403"), "{}", why(&gone));
    Ok(())
}
