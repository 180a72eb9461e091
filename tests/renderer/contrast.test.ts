import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const css = readFileSync(path.resolve(import.meta.dirname, '../../renderer/ui/tokens.css'), 'utf8');

function tokensOf(theme: 'dark' | 'light'): Readonly<Record<string, string>> {
  const out: Record<string, string> = {};
  for (const block of css.matchAll(/\[data-theme="(\w+)"\]\s*\{([^}]*)\}/g))
    if (block[1] === 'dark' || block[1] === theme)
      for (const token of (block[2] ?? '').matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g))
        out[token[1] ?? ''] = token[2] ?? '';
  return out;
}

/** Relative luminance. @source WCAG 2.2, definition of relative luminance */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio. @source WCAG 2.2, definition of contrast ratio */
function contrast(a: string, b: string): number {
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

const TEXT: readonly (readonly [string, readonly string[]])[] = [
  [
    'ink',
    [
      'floor',
      'floor-lit',
      'sheet',
      'sheet-2',
      'well',
      'done-fill',
      'cool-wash',
      'lamp-wash',
      'f1',
      'f2',
      'f8',
    ],
  ],
  ['ink-2', ['floor', 'floor-lit', 'sheet', 'sheet-2', 'well']],
  ['ink-3', ['floor', 'floor-lit', 'sheet', 'well']],
  ['lamp', ['floor', 'floor-lit', 'sheet', 'well']],
  ['cool', ['floor', 'floor-lit', 'sheet']],
  ['on-cool', ['cool']],
  ['on-lamp', ['lamp']],
  ['on-tape', ['tape']],
  ['floor', ['ink']],
];
const MARKS: readonly (readonly [string, readonly string[]])[] = [
  ['lamp-mark', ['floor', 'floor-lit', 'sheet', 'well']],
  ['cool-2', ['floor', 'cool-wash']],
  ['line-lit', ['floor', 'floor-lit', 'sheet']],
  ['done', ['floor']],
  ['ink', ['lamp-wash']],
];

describe.each(['dark', 'light'] as const)('%s theme', (theme) => {
  const tokens = tokensOf(theme);
  const ratios = (pairs: typeof TEXT, least: number): readonly string[] =>
    pairs.flatMap(([front, grounds]) =>
      grounds
        .map((ground) => [ground, contrast(tokens[front] ?? '', tokens[ground] ?? '')] as const)
        .filter(([, ratio]) => !(ratio >= least))
        .map(([ground, ratio]) => `${front} on ${ground}: ${ratio.toFixed(2)}`),
    );
  it('keeps text at 4.5 to 1 or more on every ground it stands on', () => {
    expect(ratios(TEXT, 4.5)).toEqual([]);
  });
  it('keeps marks at 3 to 1 or more', () => {
    expect(ratios(MARKS, 3)).toEqual([]);
  });
  it('is measured right: black on white is 21 to 1', () => {
    // WCAG 2.2: ratios range from 1 to 21
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  });
});
