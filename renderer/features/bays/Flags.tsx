import { memo, type ReactNode } from 'react';
import { clock } from '#core/shared/text/when.ts';
import type { LaneView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Flag } from '../../ui/time/Time.tsx';
import type { BoardProps } from './boardProps.ts';
import { hang } from './fit.ts';
import { useFace } from './useFace.ts';

/** Promises hang at the time they are for; in the yard and in low lanes only as poles, for there is no room for words. */
export const Flags = memo(function Flags(
  props: Pick<BoardProps, 'board' | 'scale' | 'promises'> & {
    readonly lane: LaneView;
    readonly width: number;
    readonly bare: boolean;
  },
): ReactNode {
  useFace();
  const t = useText();
  const manner = useManner();
  const flags = props.board.promises
    .filter((p) => p.bayId === props.lane.bayId)
    .map((p) => {
      const now = props.promises.find((x) => x.jobId === p.jobId);
      const at = clock(manner, p.atMin * 60_000);
      const percent = now ? String(Math.round(now.nowPpm / 10_000)) : null;
      const long = percent === null ? at : t('bays.flag', { at, percent });
      const short = percent === null ? '' : `${percent} %`;
      return { ...p, at: props.scale.at(p.atMin) * props.width, long, short, lit: now?.atRisk ?? false };
    });
  const labels = props.bare ? flags.map(() => '') : hang(flags);
  return flags.map((f, i) => (
    <Flag
      key={f.jobId}
      scale={props.scale}
      at={f.atMin}
      lit={f.lit}
      {...(labels[i] ? { label: labels[i] } : {})}
    />
  ));
});
