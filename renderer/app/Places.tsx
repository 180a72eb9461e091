import { type ReactNode, useEffect, useState } from 'react';
import { clock, dayOf } from '#core/shared/text/when.ts';
import type { Me } from '#core/shared/views/people.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import { CommandBar } from '../ui/CommandBar.tsx';
import css from './Frame.module.css';
import { placesBadges } from './placesBadges.ts';
import { PLACES, type PlaceName } from './routes.tsx';

function useNow(everyMs: number): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}

function noBadge(): undefined {
  return undefined;
}

function PlaceLink(props: { readonly name: PlaceName; readonly current: boolean }): ReactNode {
  const t = useText();
  const useBadge = placesBadges[props.name] ?? noBadge;
  const count = useBadge() ?? 0;
  return (
    <a className={css['place']} href={`#/${props.name}`} aria-current={props.current ? 'page' : undefined}>
      {t(`ui.place.${props.name}`)}
      {count > 0 ? (
        <>
          <span className={css['badge']} aria-hidden="true">
            {count}
          </span>
          <span className="unseen"> {t('ui.badge', { count })}</span>
        </>
      ) : null}
    </a>
  );
}

/** The single quiet row on top: places, the command bar, who is here, the clock. */
export function Places(props: { readonly current: PlaceName | null; readonly me: Me }): ReactNode {
  const t = useText();
  const manner = useManner();
  const now = useNow(5000);
  return (
    <header className={css['places']}>
      <nav className={css['row']} aria-label={t('ui.places')}>
        {PLACES.map((name) => (
          <PlaceLink key={name} name={name} current={name === props.current} />
        ))}
      </nav>
      <CommandBar />
      <a className={`${css['me']} cut`} href="#/who" title={t('ui.whoTitle', { name: props.me.name })}>
        {props.me.name}
      </a>
      <time className={css['clock']} dateTime={new Date(now).toISOString()}>
        <span className={css['day']}>{dayOf(manner, now)}</span>
        <b>{clock(manner, now)}</b>
      </time>
    </header>
  );
}
