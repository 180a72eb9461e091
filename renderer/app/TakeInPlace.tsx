import type { ReactNode } from 'react';
import { TakeIn } from '../features/takeIn/TakeIn.tsx';

/** Taking a call, with what other areas bring to it. */
export function TakeInPlace(): ReactNode {
  return <TakeIn />;
}
