import type { ReactNode } from 'react';
import { OffersStrip } from '../features/bays/OffersStrip.tsx';
import { TakeIn } from '../features/takeIn/TakeIn.tsx';

/** Taking a call, with the dates that can be offered while the customer is still there. */
export function TakeInPlace(): ReactNode {
  return (
    <TakeIn offers={(jobId, onBooked) => <OffersStrip jobId={jobId} takesFocus onBooked={onBooked} />} />
  );
}
