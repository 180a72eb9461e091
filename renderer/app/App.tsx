import { QueryClientProvider } from '@tanstack/react-query';
import { type ReactNode, useEffect, useState } from 'react';
import { say } from '#core/shared/text/say.ts';
import { HostRefused } from '../bridge/browserHost.ts';
import { HostContext } from '../bridge/client.ts';
import { findHost } from '../bridge/findHost.ts';
import type { Host } from '../bridge/host.ts';
import { keepFresh, listenToTouches, makeQueryClient } from '../bridge/queries.ts';
import { HatchDefs } from '../ui/HatchDefs.tsx';
import { Place } from '../ui/Layout.tsx';
import { ErrorNote } from '../ui/States.tsx';
import { Gate } from './Gate.tsx';

const client = makeQueryClient();
let search: Promise<Host> | undefined;

/** The whole window: finds the host, then lets the gate decide what may be shown. */
export function App(): ReactNode {
  const [host, setHost] = useState<Host | null>(null);
  const [problem, setProblem] = useState<'link' | 'away' | null>(null);
  useEffect(() => {
    search ??= findHost();
    search.then(setHost, (why: unknown) => setProblem(why instanceof HostRefused ? 'link' : 'away'));
  }, []);
  useEffect(() => (host ? listenToTouches(host, client) : undefined), [host]);
  useEffect(() => keepFresh(client), []);
  if (problem) return <NoHost problem={problem} />;
  if (!host) return null;
  return (
    <HostContext value={host}>
      <QueryClientProvider client={client}>
        <HatchDefs />
        <Gate />
      </QueryClientProvider>
    </HostContext>
  );
}

function NoHost(props: { readonly problem: 'link' | 'away' }): ReactNode {
  return (
    <Place label={say('en', 'ui.title')}>
      <ErrorNote
        title={say('en', `ui.noHost.${props.problem}`)}
        safe={say('en', 'ui.noHost.safe')}
        next={say('en', `ui.noHost.${props.problem}.next`)}
      />
    </Place>
  );
}
