import { READING_PHASES, type ReadingPhase } from '#core/shared/views/paint.ts';
import { useText } from './texts.tsx';

type Phases = {
  readonly label: string;
  readonly options: readonly { readonly value: ReadingPhase; readonly label: string }[];
};

/** Whether readings are taken before or after work: the words of that choice. */
export function usePhases(): Phases {
  const t = useText();
  return {
    label: t('paint.phase'),
    options: READING_PHASES.map((value) => ({ value, label: t(`paint.${value}`) })),
  };
}
