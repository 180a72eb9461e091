import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { expect, it } from 'vitest';
import { onEachHost } from './eachHost.ts';
import type { BridgeWindow } from './pageTypes.ts';

onEachHost('files, paper and the end', (get) => {
  it('saves bytes where the person says, opens only what it saved, and only kinds that cannot be run', async () => {
    const app = get();
    const page = await app.firstWindow();
    const target = path.join(app.dataDir, 'plan.ics');
    await app.evaluate(({ dialog, shell }, filePath) => {
      dialog.showSaveDialog = (async () => ({ canceled: false, filePath })) as never;
      shell.openPath = async () => '';
    }, target);
    const found = await page.evaluate(
      async (other) => {
        const { saveFile, openFile, openDocument } = (window as unknown as BridgeWindow).rakelight;
        const bytes = new Uint8Array([0, 127, 128, 255]);
        const { saved } = await saveFile({ fileName: '../plan.ics', mime: 'text/calendar', bytes });
        return {
          saved,
          own: await openFile(saved ?? ''),
          other: await openFile(other),
          pdf: await openDocument({ fileName: 'quote.pdf', mime: 'application/pdf', bytes }),
          picture: await openDocument({ fileName: 'bonnet.jpeg', mime: 'image/jpeg', bytes }),
          smallPicture: await openDocument({ fileName: 'bonnet.webp', mime: 'image/webp', bytes }),
          program: await openDocument({ fileName: 'quote.desktop', mime: 'application/pdf', bytes }),
        };
      },
      path.join(app.dataDir, 'rakelight.sqlite'),
    );
    expect(found).toEqual({
      saved: target,
      own: { opened: true },
      other: { opened: false },
      pdf: { opened: true },
      picture: { opened: true },
      smallPicture: { opened: true },
      program: { opened: false },
    });
    expect([...(await readFile(target))]).toEqual([0, 127, 128, 255]);
  });

  it('prints its page to a PDF from the menu', async () => {
    const app = get();
    await app.firstWindow();
    const target = path.join(app.dataDir, 'page.pdf');
    await app.evaluate(({ dialog, Menu }, filePath) => {
      dialog.showSaveDialog = (async () => ({ canceled: false, filePath })) as never;
      Menu.getApplicationMenu()?.getMenuItemById('save-page')?.click();
    }, target);
    const head = async (): Promise<string> =>
      (await readFile(target).catch(() => Buffer.alloc(0))).subarray(0, 5).toString();
    await expect.poll(head, { timeout: 5000 }).toBe('%PDF-');
  });

  it('puts text on the clipboard for the page', async () => {
    const app = get();
    const page = await app.firstWindow();
    await page.evaluate(() => (window as unknown as BridgeWindow).rakelight.copyText('Tür 3, 1.240 €'));
    expect(await app.evaluate(({ clipboard }) => clipboard.readText())).toBe('Tür 3, 1.240 €');
  });

  it('closes the shop’s file and its lock before it ends', async () => {
    const app = get();
    await app.firstWindow();
    expect(existsSync(path.join(app.dataDir, 'rakelight.lock'))).toBe(true);
    const kept = path.join(app.dataDir, 'kept');
    await writeFile(kept, '');
    const ended = app.standin?.exited();
    await app.evaluate(({ app: program }) => void setTimeout(() => program.quit(), 50));
    if (ended) expect(await ended).toBe(0);
    const left = (): boolean =>
      ['rakelight.lock', 'rakelight.token', 'rakelight.sqlite-wal'].some((f) =>
        existsSync(path.join(app.dataDir, f)),
      );
    await expect.poll(left, { timeout: 5000 }).toBe(false);
  });
});
