import { describe, expect, test } from 'vitest';
import { parseGaugeText } from '#core/paint/commands/gaugeText.ts';
import { meanHalfWidth, type Reading, summarizeFilm } from '#core/paint/rules/film.ts';
import { toTenthUm } from '#core/paint/rules/filmText.ts';
import { removedFilm } from '#core/paint/rules/removed.ts';
import { DomainError } from '#core/shared/errors.ts';

const rules = {
  thinTenthUm: 900,
  refinishedTenthUm: 2000,
  gaugeUncertaintyTenthUm: 0,
  readingsPerSpot: 3,
} as const;
const free = (...um: number[]): Reading[] => um.map((v) => ({ tenthUm: v * 10, point: null }));
const at = (point: string, ...um: number[]): Reading[] => um.map((v) => ({ tenthUm: v * 10, point }));

function codeOf(act: () => unknown): string {
  try {
    act();
  } catch (e) {
    if (e instanceof DomainError) return `${e.code} ${JSON.stringify(e.data)}`;
    throw e;
  }
  return 'none';
}

describe('what readings say', () => {
  test('118, 121 and 124 µm: mean 121, s 3, half width 7.4524 µm (SSPC-PA 2 spot, Student t)', () => {
    const film = summarizeFilm(free(118, 121, 124), rules);
    expect(film?.mean).toBeCloseTo(1210, 9);
    expect(film?.s).toBeCloseTo(30, 9);
    expect((film?.interval?.high ?? 0) - 1210).toBeCloseTo(74.524, 3);
    expect(film?.floor).toBeCloseTo(1180, 9);
  });

  test('readings that all agree keep the width of the gauge itself', () => {
    expect(meanHalfWidth(0, 3, 15)).toBeCloseTo(29.4, 2); // 1.96 × 15
  });

  test('the limit rests on the lowest spot less its uncertainty, not on the mean', () => {
    const film = summarizeFilm([...at('a', 118, 121, 124), ...at('b', 98, 100, 102)], rules);
    // Spot b: mean 100, s 2, t(.975, 2) 4.302652730 × 2 / √3 = 4.968 µm.
    expect(film?.floor).toBeCloseTo(1000 - 49.68, 1);
    expect(film?.mean).toBeCloseTo(1105, 9);
  });

  test('below three readings there is no interval and no floor, but a thin one already warns', () => {
    const film = summarizeFilm(free(84, 86), rules);
    expect(film?.interval).toBeNull();
    expect(film?.floor).toBeNull();
    expect(film?.thin).toBe(true);
  });

  test('a spot above 200 µm is called likely refinished, one of 150 is not', () => {
    expect(summarizeFilm(free(221, 226, 230), rules)?.refinished).toBe(true);
    expect(summarizeFilm(free(150, 152, 149), rules)?.refinished).toBe(false);
    expect(summarizeFilm([], rules)).toBeNull();
  });
});

describe('what was taken', () => {
  test('points marked both times are compared in pairs, and a clear difference is shown', () => {
    const before = [...at('a', 110), ...at('b', 112), ...at('c', 108), ...at('d', 115)];
    const after = [...at('a', 107), ...at('b', 109.2), ...at('c', 105.1), ...at('d', 111.9)];
    const removed = removedFilm(before, after, 20, 1);
    expect(removed.method).toBe('paired');
    expect(removed.difference).toBeCloseTo(29.5, 6); // mean of 3.0, 2.8, 2.9 and 3.1 µm is 2.95 µm
    expect(removed.shown).toBe(true);
    expect(removed.booked).toBeCloseTo(29.5, 6);
  });

  test('a difference whose interval covers 0 is not shown, and the plan is booked', () => {
    const removed = removedFilm(free(110, 115, 104), free(108, 114, 103), 24, 10);
    expect(removed.method).toBe('welch');
    expect(removed.shown).toBe(false);
    expect(removed.booked).toBe(24);
  });

  test('without readings afterwards the plan is booked', () => {
    expect(removedFilm(free(110, 115, 104), [], 24, 10)).toMatchObject({ method: 'planned', booked: 24 });
  });

  test('shown less than planned still books the plan: the life budget never fails to shrink', () => {
    const removed = removedFilm(free(120, 120, 120), free(118, 118, 118), 24, 1);
    expect(removed.shown).toBe(true);
    expect(removed.booked).toBe(24);
  });

  test('readings that all agree are no surer than the gauge’s smallest step', () => {
    // Step 1 µm: 1.96 · √2 · 1/√12 = 0.80 µm, so 0.5 µm is not shown and 1 µm is.
    expect(removedFilm(free(110, 110), free(109.5, 109.5), 0, 10).shown).toBe(false);
    expect(removedFilm(free(110, 110), free(109, 109), 0, 10).shown).toBe(true);
  });
});

describe('typed and pasted readings', () => {
  test('mil are 25.4 µm exactly', () => {
    expect(toTenthUm(4, 'mil', false)).toBe(1016);
    expect(toTenthUm(105.8, 'um', false)).toBe(1058);
  });

  test('mil typed as µm, and µm typed as mil, are noticed and asked about', () => {
    expect(codeOf(() => toTenthUm(4.2, 'um', false))).toBe(
      'FILM_UNIT_DOUBTFUL {"value":4.2,"unit":"um","other":"mil","row":0}',
    );
    expect(codeOf(() => toTenthUm(105, 'mil', false))).toContain('FILM_UNIT_DOUBTFUL');
    expect(toTenthUm(12, 'um', true)).toBe(120);
  });

  test.each([0, -5, Number.NaN, 9000])('%f µm is no film reading', (value) => {
    expect(codeOf(() => toTenthUm(value, 'um', true))).toContain('FILM_ABSURD');
  });

  const NAMES = new Map([['bonnet', 'bo'] as const, ['left front door', 'lfd'] as const]);
  const read = (text: string, sure = false) =>
    parseGaugeText(text, { unit: 'um', sure, body: 'saloon', nameOf: NAMES });
  const refusal = (text: string): string => codeOf(() => read(text));

  test('a gauge’s text is read whatever the order of columns, the separator and the decimal sign', () => {
    expect(read('reading;panel;point;unit\n105,8;Bonnet;p1;\n4.1;lfd;;mil\n')).toEqual([
      { row: 2, panel: 'bo', point: 'p1', tenthUm: 1058 },
      { row: 3, panel: 'lfd', point: null, tenthUm: 1041 },
    ]);
  });

  test('cells may stand in quotes, with the sign in them that splits columns (RFC 4180)', () => {
    const text = '\uFEFF"panel","reading"\r\n"Door, left front","105,8"\r\n\r\nbonnet,104,,\r\n';
    expect(read(text)).toEqual([
      { row: 2, panel: 'lfd', point: null, tenthUm: 1058 },
      { row: 4, panel: 'bo', point: null, tenthUm: 1040 },
    ]);
    expect(refusal('panel,reading\nbo,104\nbo,"105\n')).toMatch(/^READING_UNREADABLE {"row":3,/);
  });

  test('rows without a heading are panel, point, reading, unit; the words of a panel stand in any order', () => {
    const text = 'Door front left;2;105,8\nlfd;104\nleft front door;p 3;4.1;mil\nlfd;105;µm';
    expect(read(text)).toEqual([
      { row: 1, panel: 'lfd', point: '2', tenthUm: 1058 },
      { row: 2, panel: 'lfd', point: null, tenthUm: 1040 },
      { row: 3, panel: 'lfd', point: 'p 3', tenthUm: 1041 },
      { row: 4, panel: 'lfd', point: null, tenthUm: 1050 },
    ]);
  });

  test.each([
    [
      'panel,reading\nbo,105\nwing,104',
      'READING_PANEL {"row":3,"text":"wing","body":"saloon","panels":["bo","lfd"]}',
    ],
    [
      'panel,reading\nbo,105\nrrd,104',
      'READING_PANEL {"row":3,"text":"rrd","body":"saloon","panels":["bo","lfd"]}',
    ],
    ['panel,point\nbo,105', 'READING_COLUMNS {"missing":"reading"}'],
    ['where,reading\nbo,105', 'READING_COLUMNS {"missing":"panel"}'],
    ['panel,reading\nbo,105,8', 'READING_CELLS {"row":2,"cells":3,"columns":2}'],
    ['bo,1,105,um,x', 'READING_CELLS {"row":1,"cells":5,"columns":4}'],
    ['bo', 'READING_UNREADABLE {"row":1,"column":"reading","text":""}'],
    ['panel,reading\nbo,about 105', 'READING_UNREADABLE {"row":2,"column":"reading","text":"about 105"}'],
    ['panel,reading,unit\nbo,105,thou', 'READING_UNREADABLE {"row":2,"column":"unit","text":"thou"}'],
    ['panel,reading\nbo,105\nbo,-4', 'FILM_ABSURD {"value":-4,"unit":"um","row":3}'],
    ['panel,reading\nbo,105\nbo,9000', 'FILM_ABSURD {"value":9000,"unit":"um","row":3}'],
    ['panel,reading\nbo,105\nbo,4.2', 'FILM_UNIT_DOUBTFUL {"value":4.2,"unit":"um","other":"mil","row":3}'],
    ['panel,reading\n', 'NO_READING {}'],
    ['\n\n', 'NO_READING {}'],
  ])('%j is refused whole, the row and the column named', (text, said) => {
    expect(refusal(text)).toBe(said);
  });

  test('what is not written in UTF-8 is named by row and column', () => {
    const bytes = (text: string, code: 'latin1' | 'utf16le') => Buffer.from(text, code).toString('utf8');
    expect(refusal(bytes('panel,reading\nbo,105\nTür,104', 'latin1'))).toBe(
      'READING_ENCODING {"row":3,"column":"panel","text":"T\uFFFDr"}',
    );
    expect(refusal(bytes('bo,105\n', 'utf16le'))).toMatch(/^READING_ENCODING {"row":1,"column":"1",/);
  });
});
