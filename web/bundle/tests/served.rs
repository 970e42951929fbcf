//! The folder as it is written and as it is served, made from the project's own public files.

use anyhow::{Context, Result};
use std::{
    collections::BTreeMap,
    env, fs,
    io::{Read, Write},
    net::TcpStream,
    path::{Path, PathBuf},
};
use trialfit_bundle::{
    dist::{Effort, File, Generated, assemble, is_beside, is_language, write},
    headers::{ALWAYS, POLICY},
    naming::is_fingerprinted,
    server::Server,
};

fn app(wasm: &[u8]) -> Result<Vec<File>> {
    let public = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../public");
    assemble(Generated { script: "export default 0; // ".repeat(50), wasm: wasm.to_vec() }, &public, Effort::Most)
}

fn text<'a>(files: &'a [File], name: &str) -> Result<&'a str> {
    let file = files.iter().find(|file| file.name == name).with_context(|| format!("no {name}"))?;
    Ok(str::from_utf8(&file.body)?)
}

/// A folder of its own for each test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        Self(env::temp_dir().join(format!("trialfit-served-{}-{name}", std::process::id())))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

struct Answer {
    status: String,
    headers: BTreeMap<String, String>,
    body: Vec<u8>,
}

fn ask(server: &Server, path: &str, accepts: &str) -> Result<Answer> {
    let mut stream = TcpStream::connect(server.address)?;
    write!(stream, "GET {path} HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\naccept-encoding: {accepts}\r\n\r\n")?;
    let mut bytes = Vec::new();
    stream.read_to_end(&mut bytes)?;
    let end = bytes.windows(4).position(|window| window == b"\r\n\r\n").context("no end of headers")?;
    let head = str::from_utf8(&bytes[..end])?;
    let mut lines = head.lines();
    let status = lines.next().and_then(|line| line.split(' ').nth(1)).unwrap_or_default().to_owned();
    let headers = lines.filter_map(|line| line.split_once(": ")).map(|(name, value)| (name.to_lowercase(), value.to_owned()));
    Ok(Answer { status, headers: headers.collect(), body: bytes[end + 4..].to_vec() })
}

impl Answer {
    fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", String::as_str)
    }
}

fn unpacked(answer: &Answer) -> Result<Vec<u8>> {
    let mut out = Vec::new();
    match answer.header("content-encoding") {
        "br" => brotli::BrotliDecompress(&mut &*answer.body, &mut out).map(drop)?,
        "gzip" => flate2::read::GzDecoder::new(&*answer.body).read_to_end(&mut out).map(drop)?,
        _ => out.extend(&answer.body),
    }
    Ok(out)
}

#[test]
fn the_worker_keeps_every_file_but_the_page_itself_and_the_worker() -> Result<()> {
    let files = app(b"wasm")?;
    let worker = text(&files, "sw.js")?;
    let list = worker.split_once("const FILES = [").context("no list")?.1.split_once(']').context("no end")?.0;
    let mut kept = list.split(',').map(|name| name.trim_matches('"')).collect::<Vec<_>>();
    kept.sort_unstable();
    let is_kept = |name: &&str| is_fingerprinted(name) && !is_language(name);
    let mut hashed = files.iter().map(|file| file.name.as_str()).filter(is_kept).collect::<Vec<_>>();
    hashed.sort_unstable();
    assert_eq!(kept, hashed);
    let others = files.iter().map(|file| file.name.as_str()).filter(|name| !is_fingerprinted(name) && !is_beside(name)).collect::<Vec<_>>();
    assert_eq!(others, ["index.html", "sw.js", "_headers"]);
    Ok(())
}

#[test]
fn a_change_anywhere_makes_another_version_of_page_and_worker() -> Result<()> {
    let (one, other) = (app(b"one")?, app(b"other")?);
    for name in ["index.html", "sw.js"] {
        assert_ne!(text(&one, name)?, text(&other, name)?);
    }
    let version = text(&one, "index.html")?.split_once("data-version=\"").context("no version")?.1;
    let version = version.split('"').next().unwrap_or_default();
    assert!(text(&one, "sw.js")?.contains(&format!("VERSION = '{version}'")), "the worker must find {version} in the page");
    assert_eq!(text(&app(b"one")?, "sw.js")?, text(&one, "sw.js")?, "the same sources make the same version");
    Ok(())
}

#[test]
fn the_page_holds_nothing_its_policy_refuses_and_no_address_from_the_root() -> Result<()> {
    let files = app(b"wasm")?;
    let page = text(&files, "index.html")?;
    for never in [" style=", "<style", " onclick=", "href=\"/", "src=\"/", "http:", "https:", "{{"] {
        assert!(!page.contains(never), "{never} in the page");
    }
    let scripts = page.match_indices("<script").map(|(at, _)| &page[at..]).collect::<Vec<_>>();
    assert!(scripts.iter().all(|script| script.split('>').next().is_some_and(|tag| tag.contains("src=\"boot-"))));
    Ok(())
}

#[test]
fn every_file_is_served_with_its_type_its_lifetime_and_the_policy() -> Result<()> {
    let folder = Folder::new("headers");
    let files = app(&[0; 4000])?;
    write(&files, &folder.0)?;
    let server = Server::start(&folder.0, 0)?;
    let kinds = [
        ("html", "text/html"),
        ("js", "text/javascript"),
        ("css", "text/css"),
        ("wasm", "application/wasm"),
        ("webmanifest", "application/manifest+json"),
        ("svg", "image/svg+xml"),
        ("png", "image/png"),
        ("json", "application/json"),
        ("txt", "text/plain"),
    ];
    for file in files.iter().filter(|file| file.name != "_headers") {
        let end = file.name.rsplit('.').next().unwrap_or_default();
        let kind = kinds.iter().find(|(ending, _)| *ending == end).with_context(|| file.name.clone())?.1;
        for accepts in ["br", "gzip", "identity"] {
            let answer = ask(&server, &format!("/{}", file.name), accepts)?;
            assert_eq!(answer.status, "200", "{}", file.name);
            assert_eq!(answer.header("content-type").split(';').next(), Some(kind), "{}", file.name);
            assert_eq!(unpacked(&answer)?, file.body, "{} as {accepts}", file.name);
            let forever = if is_fingerprinted(&file.name) { "public, max-age=31536000, immutable" } else { "no-cache" };
            assert_eq!(answer.header("cache-control"), forever, "{}", file.name);
            for (name, value) in ALWAYS {
                assert_eq!(answer.header(name), value, "{}", file.name);
            }
        }
    }
    assert_eq!(ask(&server, "/", "br")?.header("cache-control"), "no-cache");
    Ok(())
}

#[test]
fn the_smallest_form_a_browser_takes_is_sent() -> Result<()> {
    let folder = Folder::new("smallest");
    let files = app(&[0; 4000])?;
    write(&files, &folder.0)?;
    let server = Server::start(&folder.0, 0)?;
    let wasm = files.iter().find(|file| file.name.ends_with(".wasm")).context("no wasm")?;
    let path = format!("/{}", wasm.name);
    let answer = ask(&server, &path, "gzip, deflate, br, zstd")?;
    assert_eq!((answer.header("content-encoding"), answer.body.len()), ("br", wasm.sent()));
    assert!(answer.body.len() < 100 && answer.header("vary").contains("accept-encoding"));
    assert_eq!(ask(&server, &path, "gzip")?.header("content-encoding"), "gzip");
    assert_eq!(ask(&server, &path, "identity")?.body.len(), 4000);
    Ok(())
}

#[test]
fn what_is_not_there_is_not_found_and_not_kept() -> Result<()> {
    let folder = Folder::new("missing");
    write(&app(b"wasm")?, &folder.0)?;
    let server = Server::start(&folder.0, 0)?;
    for path in ["/nothing", "/app-000000000000.js", "/../Cargo.toml", "/%2e%2e/Cargo.toml"] {
        let answer = ask(&server, path, "br")?;
        assert_eq!((answer.status.as_str(), answer.header("cache-control")), ("404", "no-store"), "{path}");
        assert_eq!(answer.header("content-security-policy"), POLICY);
    }
    Ok(())
}

#[test]
fn a_stopped_server_answers_nobody_and_leaves_its_port_free() -> Result<()> {
    let folder = Folder::new("stopped");
    write(&app(b"wasm")?, &folder.0)?;
    let server = Server::start(&folder.0, 0)?;
    let address = server.address;
    let mut open = TcpStream::connect(address)?;
    open.write_all(b"GET / HTTP/1.1\r\nhost: localhost\r\n\r\n")?;
    let mut some = [0; 12];
    open.read_exact(&mut some)?;
    assert_eq!(&some, b"HTTP/1.1 200");
    server.stop();
    assert!(TcpStream::connect(address).is_err());
    open.read_to_end(&mut Vec::new()).ok();
    let again = open.write_all(b"GET / HTTP/1.1\r\nhost: localhost\r\n\r\n").and_then(|()| open.read(&mut some));
    assert!(matches!(again, Ok(0) | Err(_)), "an open connection was answered after the end");
    Server::start(&folder.0, address.port())?.stop();
    Ok(())
}

#[test]
fn writing_again_leaves_nothing_of_the_last_time() -> Result<()> {
    let folder = Folder::new("again");
    write(&app(b"one")?, &folder.0)?;
    let files = app(b"other")?;
    write(&files, &folder.0)?;
    let twins = files.iter().map(|file| 1 + usize::from(file.brotli.is_some()) + usize::from(file.gzip.is_some()));
    assert_eq!(fs::read_dir(&folder.0)?.count(), twins.sum::<usize>());
    Ok(())
}
