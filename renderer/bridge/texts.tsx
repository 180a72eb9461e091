import { createContext, type ReactNode, useContext, useMemo } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { TextKey } from '#core/shared/text/en.ts';
import { type Manner, PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { say, type TextValues } from '#core/shared/text/say.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { localDayOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';

const MannerContext = createContext<Manner>(PLAIN_MANNER);

/** Gives everything below it the shop's language, zone, currency and units. */
export function MannerProvider(props: { readonly manner: Manner; readonly children: ReactNode }): ReactNode {
  return <MannerContext value={props.manner}>{props.children}</MannerContext>;
}

/** How this shop writes figures, dates and money; first argument of everything in core/shared/text/format.ts. */
export function useManner(): Manner {
  return useContext(MannerContext);
}

/** The day it is in the shop. */
export function useToday(): LocalDay {
  return localDayOf(Date.now(), useManner().zone);
}

export type Say = (key: TextKey, values?: TextValues) => string;

/** `const t = useText(); t('bays.title')`. */
export function useText(): Say {
  const { locale } = useManner();
  return useMemo(() => (key, values) => say(locale, key, values), [locale]);
}

/** Turns a refusal into its sentence: what happened, what is safe, what to do. */
export function useSentence(): (refusal: PlainError) => string {
  const manner = useManner();
  return useMemo(() => (refusal) => sayError(manner.locale, refusal, manner), [manner]);
}
