// Starts the page, and sees to it that a newer version waits until it is asked for.
//
// To the page: `trialfit-update-waiting` on window, and data-update="waiting" on the root element for whoever comes late.
// From the page: `trialfit-update-take` on window, once everything worth keeping is saved.
//
// A browser's offer to put the page on the home screen is kept until the page asks for it, in the same manner:
// `trialfit-install-can` and data-install, `trialfit-install-ask`; data-installed where it runs from there.

const root = document.documentElement;
let registration;
let taking = false;

function updateIsWaiting() {
  if (!registration?.waiting || !registration.active) return;
  root.dataset.update = 'waiting';
  dispatchEvent(new CustomEvent('trialfit-update-waiting'));
}

// Only the tab that asks is loaded again; others keep the version they have.
function takeUpdate() {
  if (!registration?.waiting) return location.reload();
  taking = true;
  registration.waiting.postMessage({ kind: 'activate' });
}

async function keepForOffline() {
  const workers = navigator.serviceWorker;
  if (!workers) return;
  addEventListener('trialfit-update-take', takeUpdate);
  workers.addEventListener('controllerchange', () => {
    if (taking) location.reload();
    else delete root.dataset.update;
  });
  registration = await workers.register('./sw.js', { updateViaCache: 'none' });
  const installs = () => registration.installing?.addEventListener('statechange', updateIsWaiting);
  updateIsWaiting();
  // One may have begun before anybody could hear of it.
  installs();
  registration.addEventListener('updatefound', installs);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') registration.update().catch(() => {});
  });
}

let offer;
function mayInstall(kept) {
  offer = kept;
  root.toggleAttribute('data-install', !!offer);
  dispatchEvent(new CustomEvent('trialfit-install-can'));
}
root.toggleAttribute('data-installed', matchMedia('(display-mode: standalone)').matches || navigator.standalone === true);
addEventListener('beforeinstallprompt', (event) => {
  event.preventDefault();
  mayInstall(event);
});
addEventListener('appinstalled', () => mayInstall());
// An offer is good for one time.
addEventListener('trialfit-install-ask', () => {
  offer?.prompt();
  mayInstall();
});

// The language that was chosen in the menu, else the first of the browser's that there is.
const languages = root.dataset.languages.split(';').filter(Boolean).map((it) => it.split(' '));
function wanted() {
  const has = (code) => languages.find(([known]) => known === code) ?? (code === 'en' ? [code] : undefined);
  let chosen;
  try {
    chosen = localStorage.getItem('trialfit.language');
  } catch {
    // It keeps nothing.
  }
  return has(chosen) ?? navigator.languages.map((tag) => has(tag.split('-')[0])).find(Boolean) ?? ['en'];
}

const [code, file] = wanted();
const firstWords = document.querySelector(`.starting[lang="${code}"]`);
if (firstWords) document.getElementById('starting').textContent = firstWords.textContent;
root.lang = root.dataset.language = code;
let texts = '';

// Before the page is made, so that nothing of it has to change before the reader's eyes.
async function loadLanguage() {
  if (!file) return;
  try {
    const response = await fetch(`./${file}`);
    if (!response.ok) throw new Error(`${response.status}`);
    texts = await response.text();
    navigator.serviceWorker?.ready.then(({ active }) => active?.postMessage({ kind: 'language', file }));
  } catch (error) {
    console.warn('in English for now:', error);
    root.lang = 'en';
    root.dataset.lacks = code;
  }
  globalThis.trialfitTexts = texts;
}

function inWords(text) {
  const line = texts.split('\n').find((it) => it.startsWith(`${text}\t`));
  return line?.slice(text.length + 1) ?? text;
}

function sayItFailed(error, what) {
  console.error(error);
  const note = document.getElementById('starting') ?? document.createElement('p');
  note.className = 'starting failed';
  note.setAttribute('role', 'alert');
  note.textContent = `${inWords(what)} (${error?.message ?? error}). ${inWords('Nothing you have kept is lost.')} `;
  const again = document.createElement('button');
  again.textContent = inWords('Load it again');
  again.addEventListener('click', takeUpdate);
  note.append(again);
  document.body.append(note);
}

// Whatever becomes of the page, a newer version that mends it can still arrive.
keepForOffline().catch((error) => console.warn('not kept for use offline:', error));

// On a first visit people are to read what this is before the large file takes the line; a page out of sight paints nothing.
function firstWordsPainted() {
  if (navigator.serviceWorker?.controller || document.hidden) return undefined;
  return new Promise((painted) => requestAnimationFrame(() => setTimeout(painted)));
}

try {
  await firstWordsPainted();
  const [app] = await Promise.all([import('./{{app.js}}'), loadLanguage()]);
  await app.default({ module_or_path: new URL('./{{app_bg.wasm}}', import.meta.url) });
  for (const step of [app.open, app.workOut, app.show]) {
    do await new Promise((next) => setTimeout(next));
    while (step());
  }
  document.querySelectorAll('.starting').forEach((words) => words.remove());
  navigator.serviceWorker?.controller?.postMessage({ kind: 'started', version: root.dataset.version });
} catch (error) {
  sayItFailed(error, 'Trialfit could not start');
}

// Should it ever break down, it says so instead of standing there dead.
addEventListener('error', ({ error }) => {
  if (error instanceof WebAssembly.RuntimeError) sayItFailed(error, 'Trialfit has stopped');
});
