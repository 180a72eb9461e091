import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Change, plantFault } from '../bridge/changedDist.ts';
import { type ProbeName, probe } from '../bridge/securityProbe.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';

const chromium = findChromium();

type Fault = Change & {
  /** A second change, where two guards stand behind each other. */
  readonly also?: Change;
  readonly what: string;
  /** What has to fail; 'start' = the program has to refuse to open its window. */
  readonly caught: ProbeName | 'start';
  readonly sentence?: RegExp;
};

const FAULTS: readonly Fault[] = [
  {
    what: 'a window without sandbox',
    file: 'main.js',
    find: 'sandbox: true',
    put: 'sandbox: false',
    caught: 'start',
    sentence: /webPreferences.sandbox=false/,
  },
  {
    what: 'a window without isolation',
    file: 'main.js',
    find: 'contextIsolation: true',
    put: 'contextIsolation: false',
    caught: 'start',
    sentence: /contextIsolation=false/,
  },
  {
    what: 'Node in the page',
    file: 'main.js',
    find: 'nodeIntegration: false',
    put: 'nodeIntegration: true',
    caught: 'start',
    sentence: /nodeIntegration=true/,
  },
  {
    what: 'web security off',
    file: 'main.js',
    find: 'webSecurity: true',
    put: 'webSecurity: false',
    caught: 'start',
    sentence: /webSecurity=false/,
  },
  {
    what: 'a call that is not modelled',
    file: 'main.js',
    find: 'await window.loadURL(PAGE_URL)',
    put: 'window.setKiosk(true)',
    caught: 'start',
    sentence: /BrowserWindow.setKiosk is not modelled/,
  },
  {
    what: 'no sandbox for all',
    file: 'main.js',
    find: 'app.enableSandbox();',
    put: '',
    caught: 'sandboxedAll',
  },
  {
    what: 'no guard on navigation',
    file: 'main.js',
    find: /contents\.on\("will-navigate"/,
    put: 'contents.on("gone"',
    caught: 'handsOutside',
  },
  {
    what: 'every address taken for our own',
    file: 'main.js',
    find: /url\.protocol === [^;]+ && url\.host === [^;]+/,
    put: 'true',
    caught: 'staysOnPage',
  },
  {
    what: 'no guard on frames',
    file: 'main.js',
    find: '"will-frame-navigate"',
    put: '"gone"',
    caught: 'framesStayOnPage',
  },
  {
    what: 'no guard on redirects',
    file: 'main.js',
    find: '"will-redirect"',
    put: '"gone"',
    caught: 'redirectsStayOnPage',
  },
  {
    what: 'windows allowed',
    file: 'main.js',
    find: '{ action: "deny" }',
    put: '{ action: "allow" }',
    caught: 'noWindow',
  },
  {
    what: 'no answer to permission requests',
    file: 'main.js',
    find: /session\.setPermission(?:Request|Check)Handler\([^;]+;\s*session\.setPermission(?:Request|Check)Handler\([^;]+;/,
    put: '',
    caught: 'noPermission',
  },
  {
    what: 'no answer to device requests',
    file: 'main.js',
    find: 'session.setDevicePermissionHandler(() => false);',
    put: '',
    caught: 'noDevice',
  },
  {
    what: 'scripts from anywhere',
    file: 'main.js',
    find: `"script-src 'self'"`,
    put: `"script-src 'self' 'unsafe-inline'"`,
    caught: 'noInlineScript',
  },
  {
    what: 'the page’s policy gone',
    file: 'main.js',
    find: /"default-src 'none'",[\s\S]*?\]\.join\("; "\)/,
    put: '].join("; ")',
    caught: 'noInlineScript',
  },
  {
    what: 'no check of the path',
    file: 'main.js',
    find: 'part.startsWith(".")',
    put: 'part.startsWith("\\n")',
    also: { file: 'main.js', find: /!file\.startsWith\(root \+ [\w.]+\)/, put: 'false' },
    caught: 'noTraversal',
  },
  {
    what: 'no check of the sender',
    file: 'main.js',
    find: 'if (!isTrustedFrame(event.senderFrame))',
    put: 'if (false)',
    caught: 'senderChecked',
  },
  {
    what: 'frames trusted like the page',
    file: 'main.js',
    find: 'frame.parent === null && ',
    put: '',
    caught: 'senderChecked',
  },
  {
    what: 'methods other than GET served',
    file: 'main.js',
    find: 'request.method !== "GET" || ',
    put: '',
    caught: 'onlyGet',
  },
  {
    what: 'a preload that hands out its channel',
    file: 'preload.cjs',
    find: 'host: "electron",',
    put: 'host: "electron", ipcRenderer: { invoke: () => null },',
    caught: 'nothingLeaks',
  },
  {
    what: 'a channel with another name on one side',
    file: 'preload.cjs',
    find: 'call: "rakelight:call"',
    put: 'call: "rakelight:cal1"',
    caught: 'bridgeAnswers',
  },
];

describe.skipIf(!chromium)(`the window’s guards${chromium ? '' : ' (skipped: no Chromium)'}`, () => {
  let browser: Browser;

  beforeAll(async () => {
    if (chromium) browser = await launchChromium(chromium);
  });
  afterAll(async () => {
    await browser?.close();
  });

  it('hold in the program as it is built', async () => {
    const found = await probe(browser);
    expect(Object.entries(found).filter(([, holds]) => !holds)).toEqual([]);
  });

  it.each(FAULTS)('are seen to be missing with $what', async ({ caught, sentence, also, ...change }) => {
    const planted = plantFault(change, ...(also ? [also] : []));
    try {
      if (caught === 'start') await expect(probe(browser, planted.dist)).rejects.toThrow(sentence);
      else expect((await probe(browser, planted.dist))[caught]).toBe(false);
    } finally {
      planted.remove();
    }
  });
});
