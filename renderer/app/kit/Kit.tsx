import type { ReactNode } from 'react';
import { Place } from '../../ui/Layout.tsx';

/** The sheet of forms: every widget once. */
export function Kit(): ReactNode {
  return <Place label="kit">.</Place>;
}
