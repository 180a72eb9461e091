import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { useQuery } from '../../bridge/queries.ts';
import { StairStrip } from './StairStrip.tsx';

/** The stair alone, for the foot of the inspection; nothing before there is an estimate. */
export function StairFoot(props: { readonly jobId: JobId }): ReactNode {
  const { jobId } = props;
  const versions = useQuery('estimate.ofJob', { jobId });
  const look = useQuery('paint.inspectionOf', { jobId });
  const newest = versions.data?.[0];
  if (!newest || !look.data) return null;
  return <StairStrip key={newest.id} jobId={jobId} newest={newest} body={look.data.body} />;
}
