import { useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { ReadingPhase } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from './commands.ts';

export type MarkedPoint = { readonly x: number; readonly y: number };
type Unit = 'um' | 'mil';

/** Figures as typed: apart by spaces or semicolons, the comma a decimal sign. Null when one cannot be read. */
function readFigures(text: string): number[] | null {
  const parts = text.split(/[\s;]+/).filter(Boolean);
  const values = parts.map((part) => Number(part.replace(',', '.')));
  return parts.length > 0 && values.every(Number.isFinite) ? values : null;
}

export type Readings = {
  readonly text: string;
  readonly setText: (text: string) => void;
  /** Something is typed that is no figure. */
  readonly bad: boolean;
  /**
   * Saves what was typed and empties the field; `unit` answers the doubt whether it was µm or mil, `right` that a
   * reading lies far off.
   */
  readonly save: (how?: {
    readonly at?: MarkedPoint | null;
    readonly unit?: Unit;
    readonly right?: boolean;
  }) => Promise<boolean>;
  readonly takeBack: (readingId: number) => void;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
  /** What was typed fits the other unit far better: `save` with a unit says which it is. */
  readonly doubtful: boolean;
  /** A figure lies far from the panel's others: `save` with `right` takes it all the same. */
  readonly farOff: boolean;
};

/** Film readings of one panel, before or after work, typed as one text of figures. */
export function useReadings(jobId: JobId, panel: PanelId, phase: ReadingPhase): Readings {
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<Unit | null>(null);
  const add = useCommand('paint.addReadings');
  const remove = useCommand('paint.removeReading');

  async function save(how: Parameters<Readings['save']>[0] = {}): Promise<boolean> {
    const values = readFigures(text);
    if (!values) return false;
    // The unit that was named stands when the same figures are asked about again.
    const named = how.unit ?? (how.right ? unit : null);
    setUnit(named);
    const sure = named ? { unit: named, sure: true } : {};
    const at = how.at ? { x: Math.round(how.at.x), y: Math.round(how.at.y) } : null;
    const done = await add.run({ jobId, panel, values, phase, at, right: how.right ?? false, ...sure });
    if (done.ok) setText('');
    return done.ok;
  }
  return {
    ...{ text, setText, save },
    bad: text.trim() !== '' && readFigures(text) === null,
    takeBack: (readingId) => void remove.run({ jobId, readingId }),
    busy: add.busy,
    refusal: add.refusal ?? remove.refusal,
    doubtful: add.refusal?.code === 'FILM_UNIT_DOUBTFUL',
    farOff: add.refusal?.code === 'FILM_FAR_OFF',
  };
}
