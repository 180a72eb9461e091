import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { StagePlan } from '#core/shared/stagePlan.ts';
import { hours as hoursOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { type EstimateView, PAIR_STAGES } from '#core/shared/views/estimate.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';

/** Gives a stage to one person or to two; each press makes a new version. */
export function useHands(jobId: JobId, newest: EstimateView) {
  const choose = useCommand('estimate.hands');
  const { two } = newest.asked;
  const turn = (stage: StagePlan): void => {
    const others = two.filter((kind) => kind !== stage.kind);
    const added = PAIR_STAGES.filter((kind) => kind === stage.kind && stage.crew === 1);
    void choose.run({ jobId, two: [...others, ...added] });
  };
  return { turn, busy: choose.busy, refusal: choose.refusal };
}

/** How many people are on a stage; of two also how long they are at the car. */
export function HandsCell(props: {
  readonly stage: StagePlan;
  readonly hands: ReturnType<typeof useHands>;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { stage, hands } = props;
  if (stage.crew === 0) return null;
  const words = t('estimate.people', { n: stage.crew });
  if (!PAIR_STAGES.some((kind) => kind === stage.kind)) return <span className="quiet">{words}</span>;
  const said = t('estimate.peopleOn', { n: stage.crew, stage: t(`word.stage.${stage.kind}`) });
  return (
    <>
      <LinkButton quiet label={said} onPress={() => hands.turn(stage)} busy={hands.busy}>
        {words}
      </LinkButton>
      {stage.crew === 2 ? (
        <span className="range">
          {t('estimate.each', { hours: amountText(hoursOf(manner, stage.p50Min / 2)) })}
        </span>
      ) : null}
    </>
  );
}
