import { type ReactNode, useEffect } from 'react';
import { mayUse } from '#core/shared/roles.ts';
import type { Me } from '#core/shared/views/people.ts';
import { useText } from '../bridge/texts.tsx';
import { NotYours } from '../features/access/NotYours.tsx';
import { DemoLine } from '../features/shop/DemoLine.tsx';
import type { Params } from '../ui/router.ts';
import css from './Frame.module.css';
import { HandStrip } from './HandStrip.tsx';
import { Places } from './Places.tsx';
import type { Route } from './routes.tsx';
import { Screen } from './Screen.tsx';
import { useStandingActs } from './standingActs.ts';

/** Places on top, the job in hand below them, the screen under both. In bay mode only the screen, large. */
export function Frame(props: {
  readonly route: Route | undefined;
  readonly params: Params;
  readonly path: string;
  readonly me: Me;
}): ReactNode {
  const t = useText();
  const frame = props.route?.frame;
  const needs = props.route?.needs;
  useStandingActs(props.me);
  useEffect(() => {
    document.documentElement.dataset['mode'] = frame === 'bay' ? 'bay' : 'desk';
    return () => {
      delete document.documentElement.dataset['mode'];
    };
  }, [frame]);
  if (frame) return <Screen {...props} />;
  return (
    <>
      <button type="button" className={css['skip']} onClick={() => document.getElementById('work')?.focus()}>
        {t('ui.skip')}
      </button>
      <Places current={props.route?.place ?? null} me={props.me} />
      <DemoLine />
      <HandStrip />
      {needs && !mayUse(props.me.role, needs) ? (
        <NotYours needs={needs} me={props.me} />
      ) : (
        <Screen {...props} />
      )}
    </>
  );
}
