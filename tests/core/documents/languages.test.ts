import { IntlMessageFormat } from 'intl-messageformat';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { DocumentFile } from '#core/shared/reply.ts';
import { de } from '#core/shared/text/de.ts';
import { en } from '#core/shared/text/en.ts';
import { es } from '#core/shared/text/es.ts';
import { fr } from '#core/shared/text/fr.ts';
import type { PaperKey } from '#core/shared/text/paperKeys.ts';
import type { Minor } from '#core/shared/units.ts';
import { addTestJob, agreedJob, billJob, issueDraft, quoteJob, testEstimate } from '../../helpers/billing.ts';
import { CAR_RECORD, jobWith } from '../../helpers/bookedJob.ts';
import { papersIn, speakTo } from '../../helpers/languagePapers.ts';
import { collisionsOf, marksOf, pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const LANGUAGES = { de, fr, es } as const;
type Language = keyof typeof LANGUAGES;
type Part = ReturnType<IntlMessageFormat['getAst']>[number];

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw
    .prepare("UPDATE shop SET locale = 'en-AT', country = 'AT', name = 'Vrnk', address = 'Rva 1'")
    .run();
});
afterEach(() => shop.close());

/** The words of a text between what is filled in, those of its choices too. */
function fixedParts(text: string, locale: string): string[] {
  const found: string[] = [];
  const walk = (parts: readonly Part[]): void => {
    for (const part of parts) {
      if (part.type === 0) found.push(...part.value.split(/[\n:.,()]/).map((p) => p.trim()));
      if ('options' in part && part.options) for (const { value } of Object.values(part.options)) walk(value);
    }
  };
  walk(new IntlMessageFormat(text, locale, undefined, { ignoreTag: true }).getAst());
  return found.filter((part) => /\p{L}{3}/u.test(part));
}

/** Every piece of the English texts that a language has nowhere itself: none of them may stand on its papers. */
function foreignTo(language: Language): RegExp {
  const own = Object.values(LANGUAGES[language]).join('\n');
  const keys = Object.keys(LANGUAGES[language]) as PaperKey[];
  const pieces = new Set(keys.flatMap((key) => fixedParts(en[key], 'en')));
  const written = [...pieces].map((piece) => piece.replaceAll(/[\\^$.*+?()[\]{}|/]/g, '\\$&'));
  const whole = (piece: string): string => `(?<!\\p{L})${piece}(?!\\p{L})`;
  const foreign = written.filter((piece) => !new RegExp(whole(piece), 'u').test(own));
  return new RegExp(whole(`(?:${foreign.join('|')})`), 'gu');
}
const FOREIGN = { de: foreignTo('de'), fr: foreignTo('fr'), es: foreignTo('es') } as const;

function englishIn(text: string, language: Language): string[] {
  return text.match(FOREIGN[language]) ?? [];
}

type Marks = Awaited<ReturnType<typeof marksOf>>;

async function textOf({ bytes, mime }: DocumentFile, marks?: Marks): Promise<string> {
  if (mime === 'application/pdf')
    return [...(await pdfText(bytes)), ...(marks?.alts ?? [])].join(' ').replaceAll(/\s+/g, ' ');
  const plain = new TextDecoder().decode(bytes);
  if (mime !== 'message/rfc822') return plain;
  const body = plain.split('base64\r\n\r\n')[1]?.split('\r\n--')[0] ?? '';
  const subject = [...plain.matchAll(/=\?utf-8\?B\?([^?]+)\?=/g)].map((m) => m[1] ?? '');
  const head = plain.match(/^Subject: .*$/m)?.[0].replace('Subject: ', '') ?? '';
  return [...subject, body].map((b) => Buffer.from(b, 'base64').toString('utf8')).join(' ') + head;
}

/** Titles and figures as each language writes them. */
const EXPECTED: Readonly<Record<Language, Readonly<Record<string, readonly string[]>>>> = {
  de: {
    'quotes.open': [
      'Angebot 1',
      'gültig bis 9. Dez. 2026',
      'Variante A',
      'Ätzspuren (Tür vorn links)',
      '122 243,90',
    ],
    'bills.invoice': [
      'Rechnung 2',
      'Datum 25. Nov. 2026',
      'Schleifpolitur',
      '€ 723,12',
      'Anzahlung, Rechnung 1',
    ],
    'bills.credit': ['Rechnungskorrektur 3', 'Berichtigt Beleg 2'],
    'bills.second': ['seit 26 Tagen überfällig'],
    'parts.partial': [
      'Teilrechnung 5',
      '2. Teilrechnung zu diesem Auftrag',
      'Feinpolitur: 60 % davon, 20 % bereits berechnet',
      'Noch zu berechnen',
    ],
    'parts.final': ['Schlussrechnung 6', 'Bereits berechnet, Teilrechnung 4 vom 25. Nov. 2026'],
    'vouchers.multi': ['Gutschein', 'noch € 30,00 übrig', 'keine Rechnung'],
    'vouchers.off': ['beim Verkauf versteuert'],
    'records.handover': [
      'Mittwoch, 25. November 2026',
      '112,0 µm',
      'Nassschliff, Schleifpolitur, Lackschutz',
    ],
    'records.calendar': ['SUMMARY:Annahme Łucja Vrn'],
  },
  fr: {
    'quotes.open': [
      'Devis n° 1',
      'valable jusqu’au 9 déc. 2026',
      'Attaque chimique (porte avant gauche) :',
      '122 243,90',
    ],
    'bills.invoice': ['Facture n° 2', 'Date : 25 nov. 2026', 'Polissage de coupe', '723,12 €'],
    'bills.credit': ['Facture d’avoir n° 3', 'Rectifie la pièce n° 2'],
    'bills.second': ['26 jours de retard', 'Référence : Facture no 2'],
    'parts.partial': ['Facture partielle n° 5', 'Facture partielle 2 de cet ordre', 'Reste à facturer'],
    'parts.final': ['Facture de solde n° 6', 'Déjà facturé, facture partielle n° 4 du 25 nov. 2026'],
    'records.handover': ['mercredi 25 novembre 2026', '112,0 µm', '48 120 km'],
    'records.calendar': ['SUMMARY:Dépôt Łucja Vrn'],
  },
  es: {
    'quotes.open': [
      'Presupuesto 1',
      'válido hasta el 9 dic 2026',
      'Ataque químico (puerta delantera izquierda):',
    ],
    'parts.partial': ['Factura parcial 5', 'Pendiente de facturar'],
    'parts.final': ['Factura final 6', 'Ya facturado, factura parcial 4 del 25 nov 2026'],
    'quotes.mail': ['¿Está de acuerdo?'],
    'bills.invoice': ['Factura 2', 'Fecha: 25 nov 2026', 'Pulido de corte', '723,12 €'],
    'bills.credit': ['Factura rectificativa 3', 'Rectifica el documento 2'],
    'bills.second': ['26 días de retraso'],
    'records.handover': ['miércoles, 25 de noviembre de 2026', '112,0 µm'],
    'records.calendar': ['SUMMARY:Entrega Łucja Vrn'],
  },
};

it('English is found where it stands on a paper', () => {
  expect(englishIn('Angebot 1 · Bill to Łucja · page 2', 'de')).toEqual(['Bill to', '· page']);
});

describe.each(Object.keys(LANGUAGES) as Language[])('every paper of a customer in %s', (language) => {
  it('reads in that language alone, says which it is, and keeps its words apart on the page', async () => {
    // French words are the longest of a column: on the narrower paper too.
    shop.db.raw.prepare('UPDATE shop SET paper = ?').run(language === 'fr' ? 'Letter' : 'A4');
    const billing = { depositForm: 'prepaymentInvoice', iban: 'AT611904300234573201' };
    shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
    const papers = await papersIn(shop, language);
    expect(Object.keys(papers)).toHaveLength(26);
    for (const [name, file] of Object.entries(papers)) {
      const marks = file.mime === 'application/pdf' ? await marksOf(file.bytes) : undefined;
      const text = await textOf(file, marks);
      expect(englishIn(text, language), name).toEqual([]);
      expect(text, name).not.toContain('\ufffd');
      for (const part of EXPECTED[language][name] ?? []) expect(text, name).toContain(part);
      if (!marks) continue;
      expect(await collisionsOf(file.bytes), name).toEqual([]);
      expect(marks.language, name).toBe(`${language}-AT`);
    }
  });
});

describe('the language of a paper', () => {
  const quoteText = async (quoteId: string): Promise<string> =>
    textOf(await shop.read('billing.quoteFile', { quoteId }));
  const billText = async (invoiceId: string): Promise<string> =>
    textOf(await shop.read('billing.invoiceFile', { invoiceId }));

  it('stays the one it was begun in: a reprint, a receipt and a credit note speak as what went out', async () => {
    const { jobId, customerId } = agreedJob(shop);
    speakTo(shop, customerId, 'fr');
    const { receipt } = shop.write('billing.takeDeposit', { jobId, amountMinor: 1000, way: 'cash' });
    const invoiceId = await billJob(shop, jobId);
    const lines = [{ text: 'x 4', quantity: 1, priceMinor: 900 }];
    const late = shop.write('billing.draftOther', { customerId, lines }).invoiceId;
    await issueDraft(shop, late);
    speakTo(shop, customerId, 'de');
    expect(await billText(invoiceId)).toContain('Facture n° 1');
    expect(await textOf(await shop.read('billing.receiptFile', { receipt }))).toContain('Reçu n° 1');
    const credit = shop.write('billing.creditInvoice', { invoiceId, lines: null, reason: 'x 1' });
    expect(await billText(credit.invoiceId)).toContain('Facture d’avoir n° 3');
    shop.at(TEST_NOW + 40 * 86_400_000);
    const span = { fromDay: '2026-11-01', toDay: '2026-12-31' };
    const reminder = await shop.read('billing.reminderFile', { invoiceId: late, level: 1 });
    expect(await textOf(reminder)).toContain('Rappel de paiement');
    const account = await shop.read('billing.statementFile', { customerId, ...span });
    expect(await textOf(account)).toContain('Kontoauszug');
  });

  it('of the record of a car stays the one it was written down in', async () => {
    const { jobId, customerId } = jobWith(shop, ['wash']);
    speakTo(shop, customerId, 'es');
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    speakTo(shop, customerId, 'fr');
    const { records } = await shop.read('bookings.job', { jobId });
    const recordId = records[0]?.id ?? '';
    const paper = await shop.read('bookings.recordFile', { jobId, recordId });
    expect(await textOf(paper)).toContain('Hoja de recepción');
    const mail = await shop.read('bookings.recordDraft', { jobId, recordId });
    expect(await textOf(mail)).toContain('Buenos días, Łucja Vrn:');
  });

  it('is that of the lines by the panel as well', async () => {
    for (const level of ['oneStage', 'twoStage'] as const)
      shop.write('shop.setListPrice', { kind: 'panel', level, priceMinor: 12_000 });
    const { jobId, customerId } = addTestJob(shop);
    speakTo(shop, customerId, 'fr');
    shop.db.raw.prepare("UPDATE vehicle SET colour = '#224'").run();
    const price = { kind: 'panel', level: 'sanded', panel: 'ro', priceMinor: 9500 } as const;
    const { id: priceId } = shop.write('shop.setListPrice', price);
    const things = [[{ priceId, pieces: 2, discountMinor: 500 as Minor }]];
    const ask = { titles: [], byPanel: [true], things };
    const text = await quoteText(quoteJob(shop, jobId, [{ ...testEstimate(jobId), limits: [] }], '', ask));
    expect(text).toContain('polissage en deux étapes, 120,00 € par élément : capot');
    // Each level and price is a line of its own on paper, whose amount is its own.
    expect(text).toContain('polissage en une étape, 120,00 € par élément : toit');
    expect(text).toMatch(/2 × Ponçage à l’eau, puis trois étapes, toit, 95,00 l’unité, remise 5,00 185,00/);
    expect(englishIn(text, 'fr')).toEqual([]);
  });

  it('of an invoice is the payer’s, also where the quote was agreed in another', async () => {
    const { jobId, customerId } = agreedJob(shop);
    const quote = await shop.read('billing.readJobQuote', { jobId });
    expect(await quoteText(quote?.id ?? '')).toContain('Quote 1');
    speakTo(shop, customerId, 'de');
    const text = await billText(await billJob(shop, jobId));
    for (const part of ['Schleifpolitur', 'Feinpolitur', 'Material']) expect(text).toContain(part);
    expect(englishIn(text, 'de')).toEqual([]);
    expect(await quoteText(quote?.id ?? '')).toContain('Quote 1');
  });

  it('is the shop’s where the customer has none, and the language-neutral file carries the same lines', async () => {
    shop.db.raw
      .prepare("UPDATE shop SET settings = ?, tax_number = 'ATU1'")
      .run(JSON.stringify({ billing: { paperLanguage: 'es' } }));
    const { jobId } = agreedJob(shop);
    const invoiceId = await billJob(shop, jobId);
    expect(await billText(invoiceId)).toContain('Factura 1');
    const xml = new TextDecoder().decode((await shop.read('billing.ublFile', { invoiceId })).bytes);
    expect(xml).toContain('<cbc:Name>Pulido de corte</cbc:Name>');
    expect(xml).toContain('<cbc:PayableAmount currencyID="EUR">903.90</cbc:PayableAmount>');
  });

  it('is refused where papers do not come in it', async () => {
    const { jobId, customerId } = agreedJob(shop);
    quoteJob(shop, jobId, [testEstimate(jobId)]);
    const asked = { customerId, revision: 1, language: 'it' };
    expect(await shop.call('people.changeCustomer', asked)).toMatchObject({
      ok: false,
      error: { code: 'BAD_INPUT', data: { field: 'language' } },
    });
  });
});
