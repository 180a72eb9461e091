import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, it } from 'vitest';
import { facesOf } from '#core/documents/pdfFonts.ts';
import { paperTag } from '#core/shared/languages.ts';
import { de } from '#core/shared/text/de.ts';
import { en } from '#core/shared/text/en.ts';
import { es } from '#core/shared/text/es.ts';
import { count, money, percent } from '#core/shared/text/format.ts';
import { fr } from '#core/shared/text/fr.ts';
import { limitSentences } from '#core/shared/text/limits.ts';
import { amountText, PLAIN_MANNER } from '#core/shared/text/manner.ts';
import type { PaperKey } from '#core/shared/text/paperKeys.ts';
import { paperLocale, paperManner } from '#core/shared/text/papers.ts';
import { say } from '#core/shared/text/say.ts';
import { date, dayOf, exact } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';

const LANGUAGES = { de, fr, es } as const;
const KEYS = Object.keys(de) as PaperKey[];
type Part = ReturnType<IntlMessageFormat['getAst']>[number];

/** Every name that a message asks for, the inner ones of its choices too. */
function askedFor(text: string, locale: string): string[] {
  const names = new Set<string>();
  const walk = (parts: readonly Part[]): void => {
    for (const part of parts) {
      if ('value' in part && part.type !== 0) names.add(String(part.value));
      if ('options' in part && part.options)
        for (const [choice, { value }] of Object.entries(part.options)) {
          if (part.type === 5) names.add(`${part.value}=${choice}`);
          walk(value);
        }
    }
  };
  walk(new IntlMessageFormat(text, locale, undefined, { ignoreTag: true }).getAst());
  return [...names].sort();
}

/** Words that are written alike in both languages. */
const ALIKE: Readonly<Record<keyof typeof LANGUAGES, readonly PaperKey[]>> = {
  de: [
    ...(['doc.phone', 'doc.name', 'doc.transferIban', 'doc.transferBic', 'doc.perHour'] as const),
    ...(['doc.record.damageLine', 'doc.levelLine', 'doc.voucherCode'] as const),
  ],
  fr: [
    ...([
      'doc.option',
      'doc.signature',
      'doc.date',
      'doc.total',
      'doc.transferIban',
      'doc.transferBic',
      'doc.voucherCode',
    ] as const),
    ...([
      'doc.perHour',
      'billing.line.labour.inspection',
      'word.stage.inspection',
      'word.body.pickup',
    ] as const),
    'word.body.coupe',
  ],
  es: [
    ...(['doc.total', 'doc.phone', 'doc.transferIban', 'doc.transferBic', 'doc.perHour'] as const),
    ...(['doc.record.damageLine', 'doc.levelLine', 'card.panel'] as const),
  ],
};

describe.each(Object.keys(LANGUAGES) as (keyof typeof LANGUAGES)[])('papers in %s', (language) => {
  const texts: Readonly<Record<PaperKey, string>> = LANGUAGES[language];

  it('say each text with the values that the English one asks for, and choose by the same', () => {
    for (const key of KEYS) expect(askedFor(texts[key], language), key).toEqual(askedFor(en[key], 'en'));
  });

  it('have no text left in English but words that are written alike', () => {
    const same = KEYS.filter((key) => texts[key] === en[key]);
    expect(same.toSorted()).toEqual(ALIKE[language].toSorted());
  });

  it('use signs that the printed faces have', () => {
    const faces = facesOf('regular');
    const signs = new Set(
      Object.values(texts)
        .join('')
        .replaceAll(/[\n\u202f]/g, ''),
    );
    const lacking = [...signs].filter((sign) => !faces.some((f) => f.has(sign.codePointAt(0) ?? 0)));
    expect(lacking).toEqual([]);
  });
});

describe('the tag of papers', () => {
  it('is the shop’s own in its language, else the language as it is written in the shop’s country', () => {
    expect(paperTag({ locale: 'en-AT', country: 'AT' }, 'en')).toBe('en-AT');
    expect(paperTag({ locale: 'en-GB', country: 'AT' }, 'de')).toBe('de-AT');
    expect(paperTag({ locale: 'en-GB', country: '' }, 'de')).toBe('de-GB');
    expect(paperTag({ locale: 'es-US', country: 'US' }, 'en')).toBe('en-US');
    expect(paperTag({ locale: 'en', country: 'CH' }, 'fr')).toBe('fr-CH');
    expect(paperTag({ locale: 'en', country: '' }, 'es')).toBe('es');
  });

  it('decides the language, and English stands where it is another', () => {
    expect(['de-AT', 'fr', 'es-US', 'en-US', 'en-GB', 'sv-SE'].map(paperLocale)).toEqual([
      ...['de', 'fr', 'es', 'en-US', 'en', 'en'],
    ]);
  });

  it('that is unknown to a program without papers is said so', () => {
    expect(() => say('it' as 'de', 'doc.total')).toThrow('it has no text doc.total');
  });
});

describe('dates, figures and units on papers', () => {
  const at = Date.UTC(2026, 10, 25, 9);
  const vienna = (tag: string) => paperManner({ ...PLAIN_MANNER, zone: 'Europe/Vienna', locale: tag });

  // Unicode CLDR 47, as the runtime has it: month names, marks and their order.
  it.each([
    ['de-AT', 'Mittwoch, 25. November 2026 10:00 MEZ', '25. Nov. 2026', 'Mi., 25. Nov.', '−€ 12.345,60'],
    ['fr-AT', 'mercredi 25 novembre 2026 10:00 UTC+1', '25 nov. 2026', 'mer. 25 nov.', '−12 345,60 €'],
    ['es-AT', 'miércoles, 25 de noviembre de 2026 10:00 CET', '25 nov 2026', 'mié, 25 nov', '−12.345,60 €'],
    ['en-GB', 'Wednesday 25 November 2026 10:00 CET', '25 Nov 2026', 'Wed 25 Nov', '−€12,345.60'],
  ])('are those of the language: %s', (tag, whole, day, short, sum) => {
    const manner = vienna(tag);
    expect(exact(manner, at)).toBe(whole);
    expect(date(manner, '2026-11-25' as LocalDay)).toBe(day);
    expect(dayOf(manner, at)).toBe(short);
    expect(money(manner, -1_234_560).replaceAll(/\s/g, ' ')).toBe(sum);
  });

  it('keep the narrow space of French within a figure', () => {
    expect(count(vienna('fr-FR'), 12_345)).toBe('12\u202f345');
    expect(amountText(percent(vienna('fr-FR'), 0.125, 1))).toMatch(/^12,5\s%$/);
  });

  it('join panels as the language does', () => {
    const limits = (['bo', 'ro'] as const).map((panel) => ({
      ...{ key: 'staysDeep' as const, panel, defect: 'deepScratches' as const, data: {} },
    }));
    const said = (tag: string): string => limitSentences(vienna(tag), limits, 'saloon').join();
    expect(said('de-AT')).toContain('Einzelne tiefe Kratzer (Motorhaube und Dach)');
    expect(said('fr-FR')).toContain('Rayures profondes isolées (capot et toit)\u00a0:');
    expect(said('es-ES')).toContain('Arañazos profundos aislados (capó y techo)');
  });
});
