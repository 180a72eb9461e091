import { type Query, QueryClient, useQuery as useReactQuery } from '@tanstack/react-query';
import type { EntryName, OutputFor, SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import { refusalOf, send, useHost } from './client.ts';
import type { Host } from './host.ts';
import { useSessionToken } from './session.ts';

/** Answers stay until a write touches one of their topics, or `keepFresh` finds them old. */
export function makeQueryClient(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: {
        staleTime: Number.POSITIVE_INFINITY,
        gcTime: 10 * 60_000,
        retry: false,
        refetchOnWindowFocus: false,
        refetchOnReconnect: false,
        networkMode: 'always',
        structuralSharing: true,
      },
      mutations: { retry: false, networkMode: 'always' },
    },
  });
}

/** The topics that each question's answers hang on, as its answers told. */
const topicsOf = new Map<unknown, readonly string[]>();

/** True when an answer may be stale; of a question that was never answered nothing is known. */
function hangsOn(query: Query, topics: readonly string[]): boolean {
  return topicsOf.get(query.queryKey[0])?.some((topic) => topics.includes(topic)) ?? true;
}

/** Asks again every open question whose topics meet the touched ones; `*` is another shop file. */
export function refresh(client: QueryClient, topics: readonly string[] | 'all'): void {
  const meant = (query: Query): boolean => topics === 'all' || topics.includes('*') || hangsOn(query, topics);
  // A first answer still on its way was worked out before the change; asking again would only join it.
  const under = (query: Query): boolean =>
    meant(query) && query.state.fetchStatus === 'fetching' && query.state.data === undefined;
  void client.cancelQueries({ predicate: under }).then(() => client.invalidateQueries({ predicate: meant }));
}

/** Keeps this window's questions fresh when another window or the command line writes. */
export function listenToTouches(host: Host, client: QueryClient): () => void {
  return host.onTouched((topics) => refresh(client, topics));
}

/** Lists that say what is late or due grow wrong by the clock alone; they may be this old. */
const FRESH_MS = 5 * 60_000;

/** Asks everything again when a window is looked at after a while, and now and then while it is. */
export function keepFresh(client: QueryClient): () => void {
  let askedMs = Date.now();
  const look = (): void => {
    if (document.visibilityState !== 'visible' || Date.now() - askedMs < FRESH_MS) return;
    askedMs = Date.now();
    refresh(client, 'all');
  };
  const timer = setInterval(look, 30_000);
  document.addEventListener('visibilitychange', look);
  return () => {
    clearInterval(timer);
    document.removeEventListener('visibilitychange', look);
  };
}

export type Answer<T> = {
  /** The newest answer; stays while it is asked again. */
  readonly data: T | undefined;
  readonly error: PlainError | null;
  /** True until the first answer or refusal. */
  readonly loading: boolean;
  /** True while it is asked, also again: the answer at hand may be one to an older state. */
  readonly asking: boolean;
  readonly ask: () => void;
};
export type AskOptions = {
  /** False holds the question back until something it needs is known. */
  readonly when?: boolean;
  /** True keeps the answer to the previous input until the new one is there (searching, dragging). */
  readonly keep?: boolean;
};

/** A question, answered again whenever a write touches its topics. Asked anew when somebody else signs in. */
export function useQuery<N extends EntryName>(
  name: N,
  input: SentFor<N>,
  options: AskOptions = {},
): Answer<OutputFor<N>> {
  const host = useHost();
  const session = useSessionToken();
  const found = useReactQuery({
    queryKey: [name, input, session],
    queryFn: async () => {
      const { value, touches } = await send(host, name, input);
      topicsOf.set(name, touches);
      return value;
    },
    enabled: options.when ?? true,
    ...(options.keep ? { placeholderData: (previous: unknown) => previous as never } : {}),
  });
  return {
    data: found.data as OutputFor<N> | undefined,
    error: found.error ? refusalOf(found.error) : null,
    loading: found.isLoading,
    asking: found.isFetching,
    ask: () => void found.refetch(),
  };
}
