//! The folder a host serves.

use crate::{
    headers,
    language::{self, Language},
    naming::{Names, Source, fingerprint},
};
use anyhow::{Context, Result};
use flate2::{Compression, write::GzEncoder};
use std::{collections::BTreeMap, fs, io::Write, path::Path};

/// What the wasm build gives to the bundle.
#[derive(Debug, Clone)]
pub struct Generated {
    pub script: String,
    pub wasm: Vec<u8>,
}

/// One file of the folder, with its smaller twins where they are smaller.
#[derive(Debug, Clone)]
pub struct File {
    pub name: String,
    pub body: Vec<u8>,
    pub brotli: Option<Vec<u8>>,
    pub gzip: Option<Vec<u8>>,
}

/// How well the twins are compressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effort {
    /// As small as it gets; this is what is published.
    Most,
    /// No twins at all, for work at the desk.
    None,
}

/// Makes every file from the sources: everything the page refers to under a name made from its content, the page, the
/// service worker with the list of what it keeps, and the headers for hosts.
pub fn assemble(generated: Generated, public: &Path, effort: Effort) -> Result<Vec<File>> {
    let (beside, mut sources): (BTreeMap<_, _>, BTreeMap<_, _>) = read_sources(public)?.into_iter().partition(|(name, _)| is_beside(name));
    sources.insert("app.js".into(), Source::Finished(generated.script.into_bytes()));
    sources.insert("app_bg.wasm".into(), Source::Finished(generated.wasm));
    let page = take_template(&mut sources, "index.html")?;
    let worker = take_template(&mut sources, "service-worker.js")?;

    let languages = languages(public)?;
    sources.extend(languages.iter().map(|it| (file_of(it), Source::Finished(it.written().into_bytes()))));

    let policy = headers::policy_in_page();
    let mut names = Names::new(sources);
    // Each by its code, its file and its own name.
    let listed = languages.iter().map(|it| format!("{} {{{{{}}}}} {}", it.code, file_of(it), it.name)).collect::<Vec<_>>().join(";");
    let listed = names.fill(&listed, &[])?;
    let first_words = first_words(&page, &languages)?;
    let known = |version| [("policy", policy.as_str()), ("languages", &listed), ("first words", &first_words), ("version", version)];
    // The page carries the version, so the version is made of the page as it is without it.
    let unversioned = names.fill(&page, &known("")).context("in index.html")?;
    let version = fingerprint(unversioned.as_bytes());
    let index = names.fill(&page, &known(&version))?;
    let mut served = names.finish()?;

    let list = |chosen: bool| {
        let names = served.iter().filter(|(name, _)| is_language(name) == chosen).map(|(name, _)| format!("\"{name}\""));
        format!("[{}]", names.collect::<Vec<_>>().join(","))
    };
    let worker = Names::default().fill(&worker, &[("version", &version), ("files", &list(false)), ("languages", &list(true))]);
    served.push(("index.html".into(), index.into_bytes()));
    served.push(("sw.js".into(), worker.context("in service-worker.js")?.into_bytes()));
    served.extend(beside.into_iter().filter_map(|(name, source)| match source {
        Source::Finished(body) => Some((name, body)),
        Source::Template(_) => None,
    }));

    let hosts = headers::file_for_hosts(served.iter().map(|(name, _)| name.as_str()));
    let mut files = served.into_iter().map(|(name, body)| File::new(name, body, effort)).collect::<Result<Vec<_>>>()?;
    files.push(File { name: "_headers".into(), body: hosts.into_bytes(), brotli: None, gzip: None });
    Ok(files)
}

/// Whether a file lies beside the app under its own name, for whoever asks for it, and is no part of a first visit.
#[must_use]
pub fn is_beside(name: &str) -> bool {
    name.ends_with(".json")
}

/// Whether a file is a language's, loaded by those who read the page in it.
#[must_use]
pub fn is_language(name: &str) -> bool {
    name.starts_with("language-")
}

fn file_of(language: &Language) -> String {
    format!("language-{}.txt", language.code)
}

/// The languages of `public/languages`, besides the one everything is written in.
fn languages(public: &Path) -> Result<Vec<Language>> {
    let files = sorted_files(&public.join("languages"))?;
    files.iter().map(|(name, path)| language::read(&fs::read_to_string(path)?).with_context(|| format!("in {name}"))).collect()
}

/// What the page says before anything of it has been loaded, once more in each other language.
fn first_words(page: &str, languages: &[Language]) -> Result<String> {
    let said = page.split_once(r#"id="starting" class="starting">"#).and_then(|(_, rest)| rest.split_once("</p>"));
    let (english, _) = said.context("index.html has no first words")?;
    let of = |it: &Language| {
        let words = it.of(english).with_context(|| format!("the first words are not in {}", it.code))?;
        Ok(format!("\n<p class=\"starting\" lang=\"{}\">{words}</p>", it.code))
    };
    languages.iter().map(of).collect()
}

/// Everything in `public`, the style sheets of `public/style` joined into one in the order of their names.
fn read_sources(public: &Path) -> Result<BTreeMap<String, Source>> {
    let mut sources = BTreeMap::new();
    for (name, path) in sorted_files(public)? {
        let text = matches!(path.extension().and_then(|end| end.to_str()), Some("html" | "js" | "svg" | "webmanifest"));
        let body = fs::read(&path)?;
        let source = if text { Source::Template(String::from_utf8(body)?) } else { Source::Finished(body) };
        sources.insert(name, source);
    }
    let mut style = String::new();
    for (_, path) in sorted_files(&public.join("style"))? {
        style.push_str(&fs::read_to_string(path)?);
    }
    sources.insert("style.css".into(), Source::Template(style));
    Ok(sources)
}

fn sorted_files(folder: &Path) -> Result<BTreeMap<String, std::path::PathBuf>> {
    let entries = fs::read_dir(folder).with_context(|| format!("{} cannot be read", folder.display()))?;
    let mut files = BTreeMap::new();
    for entry in entries {
        let entry = entry?;
        if entry.file_type()?.is_file() {
            files.insert(entry.file_name().to_string_lossy().into_owned(), entry.path());
        }
    }
    Ok(files)
}

fn take_template(sources: &mut BTreeMap<String, Source>, name: &str) -> Result<String> {
    match sources.remove(name) {
        Some(Source::Template(text)) => Ok(text),
        _ => anyhow::bail!("public/{name} is missing"),
    }
}

impl File {
    fn new(name: String, body: Vec<u8>, effort: Effort) -> Result<Self> {
        if effort == Effort::None {
            return Ok(Self { name, body, brotli: None, gzip: None });
        }
        let smaller = |twin: Vec<u8>| (twin.len() < body.len()).then_some(twin);
        let (brotli, gzip) = (smaller(brotli(&body)?), smaller(gzip(&body)?));
        Ok(Self { name, body, brotli, gzip })
    }

    /// Bytes on the wire to a browser that reads brotli, as all of today's do.
    #[must_use]
    pub fn sent(&self) -> usize {
        self.brotli.as_ref().unwrap_or(&self.body).len()
    }
}

fn brotli(body: &[u8]) -> Result<Vec<u8>> {
    let mut out = Vec::new();
    let settings = brotli::enc::BrotliEncoderParams { quality: 11, size_hint: body.len(), ..Default::default() };
    brotli::BrotliCompress(&mut &*body, &mut out, &settings)?;
    Ok(out)
}

fn gzip(body: &[u8]) -> Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(body)?;
    Ok(encoder.finish()?)
}

/// Writes `files` into `folder` and removes whatever else is there. The page and the worker come after what they refer
/// to, so that a server over the folder never gives out a page whose parts are not there yet.
pub fn write(files: &[File], folder: &Path) -> Result<()> {
    fs::create_dir_all(folder)?;
    let mut wanted = Vec::new();
    for file in files {
        let twins = [("", Some(&file.body)), (".br", file.brotli.as_ref()), (".gz", file.gzip.as_ref())];
        for (ending, body) in twins {
            if let Some(body) = body {
                let name = format!("{}{ending}", file.name);
                fs::write(folder.join(&name), body).with_context(|| format!("{name} cannot be written"))?;
                wanted.push(name);
            }
        }
    }
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let stays = entry.file_name().to_str().is_some_and(|name| wanted.iter().any(|wanted| wanted == name));
        match (stays, entry.file_type()?.is_dir()) {
            (true, _) => {}
            (false, true) => fs::remove_dir_all(entry.path())?,
            (false, false) => fs::remove_file(entry.path())?,
        }
    }
    Ok(())
}
