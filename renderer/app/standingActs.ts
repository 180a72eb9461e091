import { useMemo } from 'react';
import { mayUse } from '#core/shared/roles.ts';
import type { Me } from '#core/shared/views/people.ts';
import { useHost } from '../bridge/client.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import { type Act, type Search, useActs, useSearch } from '../ui/commandRegistry.ts';
import { go } from '../ui/router.ts';
import { setTheme, THEMES } from '../ui/theme.ts';
import { searchRecords } from './recordSearch.ts';
import { PLACES } from './routes.tsx';

/** What the command bar offers everywhere: the places, taking a call, the look; customers, vehicles, jobs and items by name. */
export function useStandingActs(me: Me): void {
  const t = useText();
  const manner = useManner();
  const host = useHost();
  const acts = useMemo<readonly Act[]>(() => {
    const places = PLACES.map((name) => ({
      id: `place.${name}`,
      group: t('ui.acts.go'),
      label: t(`ui.place.${name}`),
      words: t(`ui.placeWords.${name}`),
      run: () => go(`/${name}`),
    }));
    const steps = {
      id: 'steps',
      group: t('ui.acts.go'),
      label: t('shop.part.steps'),
      words: t('shop.say.steps'),
      run: () => go('/steps'),
    };
    const looks = THEMES.map((theme) => ({
      id: `theme.${theme}`,
      group: t('ui.acts.look'),
      label: t(`ui.theme.${theme}`),
      run: () => setTheme(theme),
    }));
    const call = {
      id: 'take-in',
      group: t('ui.acts.do'),
      label: t('ui.acts.takeIn'),
      words: t('ui.acts.takeInWords'),
      run: () => go('/take-in?next'),
    };
    const who = {
      id: 'who',
      group: t('ui.acts.do'),
      label: t('ui.acts.who'),
      words: t('ui.acts.whoWords'),
      run: () => go('/who'),
    };
    return [...(mayUse(me.role, 'desk') ? [call] : []), who, ...places, steps, ...looks];
  }, [t, me.role]);
  useActs(acts);
  const desk = mayUse(me.role, 'desk');
  const search = useMemo<Search>(() => searchRecords(host, t, manner, desk), [host, t, manner, desk]);
  useSearch(search);
}
