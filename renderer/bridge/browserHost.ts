import { carriesFile, type HostEvent, type Progress } from '#core/shared/bridge.ts';
import type { Call, DocumentFile, Reply } from '#core/shared/reply.ts';
import { bytesIn, bytesOut } from '#core/shared/wire.ts';
import type { Host } from './host.ts';

const TOKEN = 'rakelight.window';
const RETRY_MS = 1000;

/** The window's link was spent or the host was started afresh: only a new start link helps. */
export class HostRefused extends Error {}

/** The host on 127.0.0.1, over the HTTP contract of core/shared/bridge.ts. */
export async function browserHost(): Promise<Host> {
  await takeCode();
  const token = sessionStorage.getItem(TOKEN);
  if (!token) throw new HostRefused();
  const touched = new Set<(topics: readonly string[] | 'all') => void>();
  const progress = new Set<(progress: Progress) => void>();
  void listenForever((event) => {
    if (event === 'again') for (const listen of touched) listen('all');
    else if (event.event === 'touched') for (const listen of touched) listen(event.topics);
    else if (event.event === 'progress') for (const listen of progress) listen(event.progress);
  });
  return {
    kind: 'browser',
    call: sendCall,
    cancel: async (commandId) => {
      await post('/cancel', { commandId });
    },
    onTouched: (listen) => addTo(touched, listen),
    onProgress: (listen) => addTo(progress, listen),
    save: async (file) => download(file),
    open: async (file) => openTab(file),
    print: async () => window.print(),
  };
}

function addTo<T>(set: Set<T>, one: T): () => void {
  set.add(one);
  return () => {
    set.delete(one);
  };
}

/** Trades the one-time code of the start link for this window's token and takes it out of the address. */
async function takeCode(): Promise<void> {
  const code = new URLSearchParams(location.hash.slice(1)).get('c');
  if (!code) return;
  history.replaceState(null, '', location.pathname);
  const answer = await fetch('/session', jsonBody({ code }));
  if (!answer.ok) {
    if (sessionStorage.getItem(TOKEN)) return;
    throw new HostRefused();
  }
  const { token } = (await answer.json()) as { readonly token: string };
  sessionStorage.setItem(TOKEN, token);
}

function jsonBody(value: unknown): RequestInit {
  const headers: Record<string, string> = { 'content-type': 'application/json' };
  const token = sessionStorage.getItem(TOKEN);
  if (token) headers['authorization'] = `Bearer ${token}`;
  return { method: 'POST', headers, body: JSON.stringify(value) };
}

async function post(path: string, value: unknown): Promise<Response> {
  const answer = await fetch(path, jsonBody(value));
  if (answer.status !== 401) return answer;
  sessionStorage.removeItem(TOKEN);
  location.reload();
  throw new HostRefused();
}

async function sendCall(call: Call): Promise<Reply> {
  const path = carriesFile(call.name) ? '/picture' : '/rpc';
  const answer = await post(path, { ...call, input: bytesOut(call.input, toBase64) });
  if (!answer.ok) throw new Error(`the host answered ${answer.status}`);
  return bytesIn(await answer.json(), fromBase64) as Reply;
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(text);
}

function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

async function listenForever(tell: (event: HostEvent | 'again') => void): Promise<void> {
  for (let first = true; ; first = false) {
    try {
      const answer = await post('/events', {});
      if (!first) tell('again');
      if (answer.body) await readLines(answer.body, tell);
    } catch (problem) {
      if (problem instanceof HostRefused) return;
    }
    await new Promise((done) => setTimeout(done, RETRY_MS));
  }
}

async function readLines(body: ReadableStream<Uint8Array>, tell: (event: HostEvent) => void): Promise<void> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let rest = '';
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    const lines = (rest + decoder.decode(value, { stream: true })).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) if (line.trim() !== '') tell(JSON.parse(line) as HostEvent);
  }
}

function urlOf(file: DocumentFile): string {
  return URL.createObjectURL(new Blob([file.bytes as BlobPart], { type: file.mime }));
}

function download(file: DocumentFile): string {
  const link = document.createElement('a');
  link.href = urlOf(file);
  link.download = file.fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return file.fileName;
}

function openTab(file: DocumentFile): boolean {
  const url = urlOf(file);
  const opened = window.open(url, '_blank');
  if (!opened) download(file);
  setTimeout(() => URL.revokeObjectURL(url), 600_000);
  return opened !== null;
}
