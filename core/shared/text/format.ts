import { type ShownUnit, shownUnit, toShown } from '../amounts.ts';
import { currencyDigits } from '../money.ts';
import { MM_PER_FOOT, roundHalfAway, TENTH_UM_PER_MIL, UL_PER_FLOZ } from '../units.ts';
import type { BaseUnit } from '../vocabulary.ts';
import type { Amount, Figures } from './manner.ts';

/** Figures as the shop writes them. Values come in storage units, never as floats of money. */
const MINUS = '−';
const numbers = new Map<string, Intl.NumberFormat>();

function numberFormat(region: string, digits: number, currency = ''): Intl.NumberFormat {
  const key = `${region}/${digits}/${currency}`;
  let found = numbers.get(key);
  if (!found) {
    const places = { minimumFractionDigits: digits, maximumFractionDigits: digits };
    found = new Intl.NumberFormat(
      region,
      currency ? { ...places, style: 'currency', currency, currencyDisplay: 'narrowSymbol' } : places,
    );
    numbers.set(key, found);
  }
  return found;
}

function minus(text: string): string {
  return text.replace('-', MINUS);
}

/** The decimal text of minor units, exact at any size: 108468 with 2 digits is `1084.68`. */
export function minorToDecimal(minor: number, digits: number): string {
  const negative = minor < 0 ? '-' : '';
  const plain = String(Math.abs(minor)).padStart(digits + 1, '0');
  return digits === 0 ? negative + plain : `${negative}${plain.slice(0, -digits)}.${plain.slice(-digits)}`;
}

/**
 * Money with its sign: `€1,084.68`. The digits come from ISO 4217, never from Intl. Where Intl
 * knows another decimal mark for a region's money than for its plain numbers, the plain one is taken: one line must
 * not read two ways.
 * @throws CURRENCY_UNKNOWN when the currency is not in the list
 */
export function money(manner: Figures, minor: number, currency: string = manner.currency): string {
  const digits = currencyDigits(currency);
  const text = minorToDecimal(minor, digits) as Intl.StringNumericLiteral;
  const parts = numberFormat(manner.region, digits, currency).formatToParts(text);
  const [own, plain] = [marksOf(manner.region, currency), marksOf(manner.region)];
  const set: Partial<Record<string, string>> = own.decimal === plain.decimal ? own : plain;
  return minus(parts.map((p) => set[p.type] ?? p.value).join(''));
}

type Marks = { readonly decimal: string; readonly group: string };
const marks = new Map<string, Marks>();

/** The marks a region sets between and after the digits of a figure. */
function marksOf(region: string, currency = ''): Marks {
  const key = `${region}/${currency}`;
  const known = marks.get(key);
  if (known) return known;
  const parts = numberFormat(region, 2, currency).formatToParts(1_234_567.5);
  const mark = (type: string): string => parts.find((p) => p.type === type)?.value ?? '';
  const found = { decimal: mark('decimal'), group: mark('group') };
  marks.set(key, found);
  return found;
}

/** Money without its sign, for columns that name the currency above: `1,084.68`. */
export function moneyPlain(manner: Figures, minor: number, currency: string = manner.currency): string {
  const digits = currencyDigits(currency);
  const text = minorToDecimal(minor, digits) as Intl.StringNumericLiteral;
  return minus(numberFormat(manner.region, digits).format(text));
}

/** A plain number with a fixed count of decimals, half away from zero: `1,204`. */
export function count(manner: Figures, value: number, digits = 0): string {
  const size = 10 ** digits;
  return minus(numberFormat(manner.region, digits).format(roundHalfAway(value * size) / size));
}

/** Minutes as hours with one decimal: 570 is `9.5 h`. */
export function hours(manner: Figures, minutes: number): Amount {
  return { value: count(manner, roundHalfAway(minutes / 6) / 10, 1), unit: 'h' };
}

/** Minutes as hours and minutes, to be added up as printed: 39270 is `654:30`. For whole minutes from 0 up. */
export function hoursMinutes(manner: Figures, minutes: number): string {
  return `${count(manner, Math.floor(minutes / 60))}:${String(minutes % 60).padStart(2, '0')}`;
}

/** P20–P80 beside a value, in hours: 486, 720 is `8.1–12.0`. */
export function hoursRange(manner: Figures, lowMin: number, highMin: number): string {
  return range(hours(manner, lowMin).value, hours(manner, highMin).value);
}

/** Two figures with an en dash. Equal ends are said once. */
export function range(low: string, high: string): string {
  return low === high ? low : `${low}–${high}`;
}

/** Minutes as minutes below two hours, else hours, else days: how long something has waited. */
export function lasting(manner: Figures, minutes: number): Amount {
  if (Math.abs(minutes) < 120) return { value: count(manner, minutes), unit: 'min' };
  if (Math.abs(minutes) < 48 * 60) return { value: count(manner, minutes / 60), unit: 'h' };
  return { value: count(manner, minutes / 1440), unit: 'd' };
}

/** A share of 1 as whole per cent: 0.84 is `84 %`. */
export function percent(manner: Figures, share: number, digits = 0): Amount {
  return { value: count(manner, share * 100, digits), unit: '%' };
}

/** A rate in parts per million with as many decimals as it has: 200000 is `20 %`, 77500 is `7.75 %`. */
export function rate(manner: Figures, ppm: number): Amount {
  const digits = [0, 1, 2, 3].find((d) => Number.isInteger((ppm / 10_000) * 10 ** d)) ?? 4;
  return { value: count(manner, ppm / 10_000, digits), unit: '%' };
}

/** Film in the shop's unit: 1058 tenths is `105.8 µm` or `4.17 mil`. */
export function film(manner: Figures, tenthUm: number): Amount {
  if (manner.filmUnit === 'mil') return { value: count(manner, tenthUm / TENTH_UM_PER_MIL, 2), unit: 'mil' };
  return { value: count(manner, tenthUm / 10, 1), unit: 'µm' };
}

/**
 * Depth range of a finding: 5–12 tenths is `0.5–1.2 µm`. In mil a shallow one has a digit more than film:
 * `0.020–0.047 mil`, but `0.13–0.36 mil`. Null where there is none.
 */
export function depthText(
  manner: Figures,
  depth: { readonly lowTenthUm: number; readonly highTenthUm: number },
): Amount | null {
  const { lowTenthUm, highTenthUm } = depth;
  if (highTenthUm === 0) return null;
  const { unit } = film(manner, 0);
  const fine = manner.filmUnit === 'mil' && highTenthUm < TENTH_UM_PER_MIL / 10;
  const said = (tenthUm: number): string =>
    fine ? count(manner, tenthUm / TENTH_UM_PER_MIL, 3) : film(manner, tenthUm).value;
  return { value: range(said(lowTenthUm), said(highTenthUm)), unit };
}

/** Volume in the shop's unit, decimals only where they say something: 620000 µl is `620 ml`. */
export function volume(manner: Figures, microlitres: number): Amount {
  if (manner.volumeUnit === 'floz')
    return { value: count(manner, microlitres / UL_PER_FLOZ, 1), unit: 'fl oz' };
  const ml = microlitres / 1000;
  if (Math.abs(ml) >= 10_000) return { value: count(manner, ml / 1000, 1), unit: 'l' };
  return { value: count(manner, ml, Math.abs(ml) < 10 && !Number.isInteger(ml) ? 1 : 0), unit: 'ml' };
}

/** Mass: 310000 mg is `310 g`, from 10 kg on in kg. */
export function mass(manner: Figures, milligrams: number): Amount {
  const g = milligrams / 1000;
  if (Math.abs(g) >= 10_000) return { value: count(manner, g / 1000, 1), unit: 'kg' };
  return { value: count(manner, g, Math.abs(g) < 10 && !Number.isInteger(g) ? 1 : 0), unit: 'g' };
}

/** Length in the shop's unit: 16000 mm is `16 m`, below a metre `140 mm`; in feet `52.5 ft`, below a foot inches. Nothing is `0 m`. */
export function length(manner: Figures, mm: number): Amount {
  if (manner.lengthUnit === 'ft') {
    if (mm !== 0 && Math.abs(mm) < MM_PER_FOOT) return { value: count(manner, mm / 25.4, 1), unit: 'in' };
    return { value: count(manner, mm / MM_PER_FOOT, 1), unit: 'ft' };
  }
  if (mm !== 0 && Math.abs(mm) < 1000) return { value: count(manner, mm), unit: 'mm' };
  const m = mm / 1000;
  return { value: count(manner, m, Number.isInteger(m) || Math.abs(m) >= 100 ? 0 : 1), unit: 'm' };
}

/** Area: 18000 cm² is `1.80 m²`, in feet `19.4 ft²`. */
export function area(manner: Figures, cm2: number): Amount {
  if (manner.lengthUnit === 'ft') return { value: count(manner, cm2 / 929.0304, 1), unit: 'ft²' };
  return { value: count(manner, cm2 / 10_000, 2), unit: 'm²' };
}

/** An amount of a material in its base unit. Pieces have no unit. */
export function amountOf(manner: Figures, unit: BaseUnit, amount: number): Amount {
  switch (unit) {
    case 'ul':
      return volume(manner, amount);
    case 'mg':
      return mass(manner, amount);
    case 'mm':
      return length(manner, amount);
    case 'piece':
      return { value: count(manner, amount), unit: '' };
  }
}

/** How a unit is written behind the figure of its field. */
const UNIT_WORDS: Readonly<Record<ShownUnit, string>> = {
  ml: 'ml',
  floz: 'fl oz',
  g: 'g',
  m: 'm',
  ft: 'ft',
  piece: '',
};

/** The unit of an amount's field: `ml` or `fl oz` as the shop reads volumes; '' for pieces. */
export function unitWord(manner: Figures, unit: BaseUnit): string {
  return UNIT_WORDS[shownUnit(unit, { volume: manner.volumeUnit, length: manner.lengthUnit })];
}

/**
 * The same in the unit that its field asks for, as exactly as it can be typed there: `11,266 ml` where a list says
 * `11.3 l`, and `12.5 ml` where it says `13 ml`.
 */
export function amountAsTyped(manner: Figures, unit: BaseUnit, amount: number): Amount {
  const shown = toShown(amount, unit, { volume: manner.volumeUnit, length: manner.lengthUnit });
  const digits = String(Number(shown.value.toFixed(MOST_TYPED))).split('.')[1]?.length ?? 0;
  return { value: count(manner, shown.value, digits), unit: unitWord(manner, unit) };
}
/** Decimals that a field of amounts takes: one thousandth of a millilitre, a gram or a metre is the base unit. */
const MOST_TYPED = 3;
