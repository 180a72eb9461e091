import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { StairFoot } from '../features/estimate/StairFoot.tsx';
import { InspectionScreen } from '../features/paint/InspectionScreen.tsx';
import type { Params } from '../ui/router.ts';

/** The inspection with the stair of best choices at its foot: what is seen above, what it costs below. */
export function JobPaint(props: { readonly params: Params }): ReactNode {
  return (
    <InspectionScreen params={props.params} foot={<StairFoot jobId={props.params['jobId'] as JobId} />} />
  );
}
