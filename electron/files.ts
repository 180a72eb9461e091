import { mkdtemp, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { app, type BrowserWindow, dialog, shell, type WebContents } from 'electron';
import { z } from 'zod';
import type { SavedFile } from '../core/shared/bridge.ts';
import type { DocumentFile } from '../core/shared/reply.ts';
import { tell } from './tell.ts';

/** Kinds of files that are opened with the system's program for them. Nothing that could be run is among them. */
const READABLE: readonly string[] = [
  '.pdf',
  '.csv',
  '.ics',
  '.xml',
  '.eml',
  '.txt',
  '.json',
  '.png',
  '.jpg',
  '.jpeg',
  '.webp',
  '.zip',
];
const MAX_BYTES = 200_000_000;

const fileShape = z.strictObject({
  fileName: z.string().min(1).max(200),
  mime: z.string().max(100),
  bytes: z.custom<Uint8Array>((value) => value instanceof Uint8Array && value.byteLength <= MAX_BYTES),
});
const saved = new Set<string>();

/** @throws ZodError when the page sent something that is not a file */
export function readFileShape(raw: unknown): DocumentFile {
  const file = fileShape.parse(raw);
  return { ...file, fileName: plainName(file.fileName) };
}

/** A name without folders and without characters that one of the systems refuses. */
function plainName(name: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
  const plain = name.replaceAll(/[\u0000-\u001f<>:"/\\|?*]/g, '-').replace(/^\.+/, '');
  return plain === '' ? 'rakelight' : plain;
}

/** Asks where to and writes the file. */
export async function saveFile(window: BrowserWindow, file: DocumentFile): Promise<SavedFile> {
  const ending = path.extname(file.fileName).slice(1);
  const choice = await dialog.showSaveDialog(window, {
    title: tell('start.dialog.saveAs'),
    defaultPath: path.join(app.getPath('documents'), file.fileName),
    ...(ending === '' ? {} : { filters: [{ name: ending.toUpperCase(), extensions: [ending] }] }),
  });
  if (choice.canceled || !choice.filePath) return { saved: null };
  await writeFile(choice.filePath, file.bytes);
  saved.add(choice.filePath);
  return { saved: choice.filePath };
}

/** Opens a file that was saved since the start; the page can name no other. */
export async function openSaved(file: string): Promise<{ readonly opened: boolean }> {
  return { opened: saved.has(file) && isReadable(file) && (await shell.openPath(file)) === '' };
}

/** Opens a document from a private folder, for reading and printing. */
export async function openDocument(file: DocumentFile): Promise<{ readonly opened: boolean }> {
  if (!isReadable(file.fileName)) return { opened: false };
  const folder = await mkdtemp(path.join(app.getPath('temp'), 'rakelight-'));
  const at = path.join(folder, file.fileName);
  await writeFile(at, file.bytes, { mode: 0o600 });
  return { opened: (await shell.openPath(at)) === '' };
}

/** Prints the window through the system's dialog. */
export function printWindow(contents: WebContents): Promise<{ readonly printed: boolean }> {
  return new Promise((resolve) => contents.print({}, (printed) => resolve({ printed })));
}

/** Saves what the window shows as a PDF. */
export async function savePage(window: BrowserWindow, paper: 'A4' | 'Letter' = 'A4'): Promise<SavedFile> {
  const bytes = await window.webContents.printToPDF({ pageSize: paper, printBackground: true });
  const fileName = `${plainName(window.getTitle())}.pdf`;
  return saveFile(window, { fileName, mime: 'application/pdf', bytes: new Uint8Array(bytes) });
}

function isReadable(file: string): boolean {
  return READABLE.includes(path.extname(file).toLowerCase());
}
