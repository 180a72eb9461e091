import { describe, expect, it } from 'vitest';
import { en, type TextKey } from '#core/shared/text/en.ts';
import { enUS } from '#core/shared/text/enUS.ts';
import { localeFor, say } from '#core/shared/text/say.ts';
import { panelName, sayError } from '#core/shared/text/sayError.ts';
import { BODY_STYLES } from '#core/shared/vocabulary.ts';
import { addTestJob, quoteJob, testEstimate } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop } from '../../helpers/shop.ts';

describe('words of a region', () => {
  it('are chosen by the region of the tag, whatever its language', () => {
    expect(['en', 'en-GB', 'en-AT', 'de-AT'].map(localeFor)).toEqual(['en', 'en', 'en', 'en']);
    expect(['en-US', 'es-US', 'en-Latn-US'].map(localeFor)).toEqual(['en-US', 'en-US', 'en-US']);
  });

  it('in the United States are hood, trunk and fender, on every body', () => {
    expect(panelName('en-US', 'bo', 'saloon')).toBe('hood');
    expect(panelName('en', 'bo', 'saloon')).toBe('bonnet');
    for (const body of BODY_STYLES)
      for (const panel of ['bo', 'bl', 'lfw', 'rfw', 'lsl', 'rsl'] as const)
        expect(panelName('en-US', panel, body)).not.toMatch(/bonnet|boot|wing|sill/);
  });

  it('ask for the values that the plain words ask for, and differ from them', () => {
    const values = (text: string): string[] => [...text.matchAll(/\{(\w+)/g)].map((m) => m[1] ?? '').sort();
    for (const [key, text] of Object.entries(enUS)) {
      expect(text).not.toBe(en[key as TextKey]);
      expect(values(text)).toEqual(values(en[key as TextKey]));
    }
    expect(say('en-US', 'ui.undo')).toBe(say('en', 'ui.undo'));
  });

  it('stand on a quote and in the parser of a gauge’s text', async () => {
    const shop = openTestShop();
    shop.db.raw.prepare("UPDATE shop SET locale = 'en-US', country = 'US'").run();
    const { jobId } = addTestJob(shop);
    const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)]);
    const text = (await pdfText((await shop.read('billing.quoteFile', { quoteId })).bytes)).join(' ');
    expect(text).toContain('Velloy Merrin sedan');
    expect(text).toContain('Likely refinished: right quarter panel');
    shop.write('paint.startInspection', { jobId });
    const rows = 'hood; 1; 112\nbonnet; 1; 114\nroof; 1; 118';
    expect(shop.write('paint.pasteReadings', { jobId, text: rows })).toEqual({ added: 3 });
    shop.close();
  });
});

it('a rule that does not take a value is named in words', () => {
  const error = {
    code: 'SETTING_OUT_OF_RANGE',
    data: { setting: 'billing.depositPpm', wrong: 'high' },
  } as const;
  expect(sayError('en', error)).toBe('This is too high for “deposit”. Nothing was changed.');
});
