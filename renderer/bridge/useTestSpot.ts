import { useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { StepRole } from '#core/shared/machineStep.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from './commands.ts';

/** A test spot as typed. */
export type SpotDraft = {
  readonly panel: PanelId | null;
  readonly role: StepRole;
  readonly passes: number | null;
  readonly sections: number | null;
  readonly seconds: number | null;
  readonly removedTenthUm: number | null;
};

export type TestSpot = {
  readonly spot: SpotDraft;
  readonly put: (part: Partial<SpotDraft>) => void;
  /** Nothing that is needed is missing. */
  readonly whole: boolean;
  readonly save: () => Promise<boolean>;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
};

/** What sections tried on this car took; saving makes a new version of its estimate. Begins at `role`. */
export function useTestSpot(jobId: JobId, panel: PanelId | null, role: StepRole = 'heavyCut'): TestSpot {
  const [spot, setSpot] = useState<SpotDraft>({
    ...{ panel, role, passes: null, sections: 1, seconds: null, removedTenthUm: null },
  });
  const record = useCommand('paint.recordTestSpot');
  const { passes, sections, seconds, removedTenthUm } = spot;
  const whole = spot.panel !== null && passes !== null && seconds !== null && sections !== null;

  async function save(): Promise<boolean> {
    if (spot.panel === null || passes === null || seconds === null || sections === null) return false;
    const said = { jobId, panel: spot.panel, role: spot.role, passes, seconds, sections, removedTenthUm };
    const done = await record.run(said);
    if (done.ok) setSpot({ ...spot, seconds: null, removedTenthUm: null });
    return done.ok;
  }
  return {
    ...{ spot, whole, save },
    put: (part) => setSpot({ ...spot, ...part }),
    busy: record.busy,
    refusal: record.refusal,
  };
}
