import { expect, it } from 'vitest';
import { untaxedBecause } from '#core/documents/letter.ts';
import { paperLocale } from '#core/shared/text/papers.ts';

/**
 * @source Directive 2006/112/EC, article 226 (11a), in its English, German, French and Spanish wording; the German one
 * also in the headnote of the Court of Justice's judgment C-247/21, which holds that the mention cannot be left out
 */
const MENTIONS = {
  en: 'Reverse charge',
  de: 'Steuerschuldnerschaft des Leistungsempfängers',
  fr: 'Autoliquidation',
  es: 'Inversión del sujeto pasivo',
} as const;

it('an invoice on which the customer owes the tax says so in its own language, once', () => {
  for (const [tag, mention] of Object.entries(MENTIONS)) {
    const locale = paperLocale(tag);
    const because = (reason: string, category: 'AE' | 'E' = 'AE'): string =>
      untaxedBecause({ category, reason }, { locale });
    expect(because('Article 196')).toBe(`${mention}. Article 196`);
    expect(because(`${mention.toUpperCase()}, article 196`)).toBe(`${mention.toUpperCase()}, article 196`);
    expect(because('Article 132', 'E')).toBe('Article 132');
  }
});
