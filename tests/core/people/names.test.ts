import fc from 'fast-check';
import { expect, test } from 'vitest';
import { letterDiff } from '#core/people/rules/almost.ts';
import {
  cleanEmail,
  cleanLines,
  cleanName,
  foldText,
  phoneKey,
  samePhone,
} from '#core/people/rules/names.ts';

test('a name loses its edges and doubled spaces and keeps its umlauts', () => {
  expect(cleanName('  Änne \t  Über-Örtel ', 'customer')).toBe('Änne Über-Örtel');
  /* A + combining diaeresis is composed to one letter. */
  expect(cleanName('A\u0308nne', 'customer')).toBe('Änne');
});

test('sixty letters are a name; a hundred and twenty-one are refused with their count', () => {
  expect(cleanName('x'.repeat(60), 'customer')).toHaveLength(60);
  expect(() => cleanName('é'.repeat(121), 'customer')).toThrow('NAME_TOO_LONG {"most":120,"has":121}');
});

test('a name of nothing but spaces is missing', () => {
  expect(() => cleanName(' \u200b ', 'person')).toThrow('NAME_MISSING {"what":"person"}');
});

test('finding ignores case and accents', () => {
  expect(foldText('MÜLLER-Straße Łoś Ørn')).toBe('muller-strasse los orn');
});

test('an address keeps its lines', () => {
  expect(cleanLines(' 1  Kiln Row \r\n\n  EW2 ')).toBe('1 Kiln Row\nEW2');
});

test.each([
  ['+49 30 123456', '030 123456', true],
  ['0555 014 207', '0555 014207', true],
  ['0555 014 207', '0555 014 208', false],
  ['12345', '12345', false],
  ['', '', false],
])('%s and %s reach the same telephone: %s', (a, b, same) => {
  expect(samePhone(phoneKey(a), phoneKey(b))).toBe(same);
});

test('no e-mail is fine, one without a domain is not', () => {
  expect(cleanEmail(' ')).toBe('');
  expect(cleanEmail(' a.b@shop.example ')).toBe('a.b@shop.example');
  expect(() => cleanEmail('a.b@shop')).toThrow('EMAIL_UNREADABLE');
});

test('differing letters are counted and pointed at in both names', () => {
  expect(letterDiff('Ilsa Tarn', 'Ilse Tarne')).toEqual({ letters: 2, inFirst: [3], inSecond: [3, 9] });
  expect(letterDiff('marit vane', 'Marit Vane')).toEqual({ letters: 0, inFirst: [], inSecond: [] });
  /* kitten → sitting takes three steps: the textbook case of edit distance. */
  expect(letterDiff('kitten', 'sitting').letters).toBe(3);
  expect(letterDiff('', 'Bo')).toEqual({ letters: 2, inFirst: [], inSecond: [0, 1] });
});

test('the count of differing letters is a distance: symmetric, 0 only for the same, never above the longer name', () => {
  const name = fc.string({ maxLength: 12, unit: 'grapheme' });
  fc.assert(
    fc.property(name, name, (a, b) => {
      const { letters } = letterDiff(a, b);
      expect(letters).toBe(letterDiff(b, a).letters);
      expect(letters === 0).toBe(a.toLowerCase() === b.toLowerCase());
      expect(letters).toBeLessThanOrEqual(Math.max([...a.toLowerCase()].length, [...b.toLowerCase()].length));
    }),
    { seed: 20261125, numRuns: 200 },
  );
});
