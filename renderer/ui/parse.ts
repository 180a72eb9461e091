/**
 * Reads what people type into number fields, in the separators of the shop's region. Exact: money never
 * becomes a float. All answer null where the text is not such a figure.
 */

type Separators = { readonly group: string; readonly decimal: string };

/** The group and decimal marks of a region: `,` and `.` for en-GB, `.` and `,` for de-DE. */
export function separators(region: string): Separators {
  const parts = new Intl.NumberFormat(region).formatToParts(12345.6);
  return {
    group: parts.find((p) => p.type === 'group')?.value ?? ',',
    decimal: parts.find((p) => p.type === 'decimal')?.value ?? '.',
  };
}

/** Cleans to `-?digits[.digits]`. A single mark followed by other than three digits is taken as the decimal mark. */
export function plainDecimal(text: string, region: string): string | null {
  const { group, decimal } = separators(region);
  let t = text
    .trim()
    .replace(/[\s  ']/g, '')
    .replace(/^[−–]/, '-')
    .replace(/[^\d.,-]/g, '');
  const marks = t.replace(/[\d-]/g, '');
  if (marks.length === 1 && marks === group && !new RegExp(`\\${group}\\d{3}$`).test(t))
    t = t.replace(group, '.');
  else t = t.replaceAll(group, '').replace(decimal, '.');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(t) ? t : null;
}

/** A number with at most `digits` decimals; more is not such a figure. */
export function parseNumber(text: string, region: string, digits: number): number | null {
  const plain = plainDecimal(text, region);
  if (plain === null) return null;
  if ((plain.split('.')[1] ?? '').length > digits) return null;
  return Number(plain);
}

/** Money as minor units of a currency with `digits`; exact. */
export function parseMinor(text: string, region: string, digits: number): number | null {
  const plain = plainDecimal(text, region);
  if (plain === null) return null;
  const [whole = '', part = ''] = plain.split('.');
  if (part.length > digits) return null;
  const minor = Number(`${whole === '' || whole === '-' ? `${whole}0` : whole}${part.padEnd(digits, '0')}`);
  return Number.isSafeInteger(minor) ? minor : null;
}

/** Minutes from `9.5`, `9.5 h`, `9:30`, `9h30` or `90 min`. */
export function parseMinutes(text: string, region: string): number | null {
  const t = text.trim().toLowerCase();
  const clock = /^(\d+)\s*(?::|h)\s*([0-5]?\d)\s*(?:min|m)?$/.exec(t);
  if (clock) return Number(clock[1]) * 60 + Number(clock[2]);
  const minutes = /^([\d.,]+)\s*(?:min|m)$/.exec(t);
  const plain = plainDecimal(minutes ? (minutes[1] ?? '') : t.replace(/h(ours?)?$/, ''), region);
  if (plain === null || plain.startsWith('-')) return null;
  return Math.round(Number(plain) * (minutes ? 1 : 60));
}
