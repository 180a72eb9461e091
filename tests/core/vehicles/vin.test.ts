import { expect, test } from 'vitest';
import { plateKey } from '#core/vehicles/rules/plate.ts';
import { checkVin } from '#core/vehicles/rules/vin.ts';

/* Worked numbers of 49 CFR 565.15(c): 1G4AH59H45G118341 sums to 411, remainder 4 (place 9 is 4);
   1M8GDM9AXKP042788 sums to 351, remainder 10, written X; seventeen ones sum to 89, remainder 1. */
test.each(['1G4AH59H45G118341', '1M8GDM9AXKP042788', '11111111111111111'])('%s fits', (vin) => {
  expect(checkVin(vin)).toEqual({ kind: 'fits' });
});

test('a wrong check digit names place 9, what it is and what it should be, and binds in North America', () => {
  expect(checkVin('1M8GDM9A2KP042788')).toEqual({
    kind: 'checkDigit',
    place: 9,
    is: '2',
    should: 'X',
    binding: true,
  });
});

test('two digits that changed places are noticed', () => {
  /* 1M8GDM9AXKP042788 with places 15 and 16 as 87: 351 + (8·4 + 7·3) − (7·4 + 8·3) = 352, remainder 0. */
  expect(checkVin('1M8GDM9AXKP042878')).toMatchObject({ kind: 'checkDigit', is: 'X', should: '0' });
});

test('elsewhere the check digit only warns', () => {
  expect(checkVin('ZZ9TERN43M1041882')).toMatchObject({
    kind: 'checkDigit',
    is: '3',
    should: '5',
    binding: false,
  });
});

test.each([
  ['1M8GDM9AXKPO42788', 12, 'O', '0'],
  ['IM8GDM9AXKP042788', 1, 'I', '1'],
  ['1M8GDM9AXKPQ42788', 12, 'Q', '0'],
  ['1M8GDM9AXKPÜ42788', 12, 'Ü', null],
])('%s has a letter that is not used', (vin, place, is, should) => {
  expect(checkVin(vin)).toEqual({ kind: 'letter', place, is, should });
});

test('small letters, spaces and dashes are read; too short and none are said', () => {
  expect(checkVin('1m8 gdm9-axkp042788')).toEqual({ kind: 'fits' });
  expect(checkVin('1M8GDM9AXKP04278')).toEqual({ kind: 'length', has: 16, needs: 17 });
  expect(checkVin('  ')).toEqual({ kind: 'none' });
});

test('a plate is found however it is spaced', () => {
  expect(plateKey('ew 22-kpo')).toBe('EW22KPO');
  expect(plateKey('GÖ·TT 1')).toBe('GÖTT1');
});
