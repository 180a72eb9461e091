import { useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { ReadingPhase } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from './commands.ts';

export type MarkedPoint = { readonly x: number; readonly y: number };
type Unit = 'um' | 'mil';

/** Figures as typed: apart by spaces or semicolons, the comma a decimal sign. Null when one cannot be read. */
export function readFigures(text: string): number[] | null {
  const parts = text.split(/[\s;]+/).filter(Boolean);
  const values = parts.map((part) => Number(part.replace(',', '.')));
  return parts.length > 0 && values.every(Number.isFinite) ? values : null;
}

export type Readings = {
  readonly text: string;
  readonly setText: (text: string) => void;
  readonly phase: ReadingPhase;
  readonly setPhase: (phase: ReadingPhase) => void;
  /** Something is typed that is no figure. */
  readonly bad: boolean;
  /** Saves what was typed and empties the field; `unit` answers the doubt whether it was µm or mil. */
  readonly save: (how?: { readonly at?: MarkedPoint | null; readonly unit?: Unit }) => Promise<boolean>;
  readonly takeBack: (readingId: number) => void;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
  /** What was typed fits the other unit far better: `save` with a unit says which it is. */
  readonly doubtful: boolean;
};

/** Film readings of one panel, typed as one text of figures. */
export function useReadings(jobId: JobId, panel: PanelId, first: ReadingPhase): Readings {
  const [text, setText] = useState('');
  const [phase, setPhase] = useState<ReadingPhase>(first);
  const add = useCommand('paint.addReadings');
  const remove = useCommand('paint.removeReading');

  async function save(how: Parameters<Readings['save']>[0] = {}): Promise<boolean> {
    const values = readFigures(text);
    if (!values) return false;
    const sure = how.unit ? { unit: how.unit, sure: true } : {};
    const at = how.at ? { x: Math.round(how.at.x), y: Math.round(how.at.y) } : null;
    const done = await add.run({ jobId, panel, values, phase, at, ...sure });
    if (done.ok) setText('');
    return done.ok;
  }
  return {
    ...{ text, setText, phase, setPhase, save },
    bad: text.trim() !== '' && readFigures(text) === null,
    takeBack: (readingId) => void remove.run({ jobId, readingId }),
    busy: add.busy,
    refusal: add.refusal ?? remove.refusal,
    doubtful: add.refusal?.code === 'FILM_UNIT_DOUBTFUL',
  };
}
