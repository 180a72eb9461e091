import type { ReactNode } from 'react';
import { Place } from '../../ui/Layout.tsx';
import { CarsSheet } from './CarsSheet.tsx';
import { ControlsSheet } from './ControlsSheet.tsx';
import css from './Kit.module.css';
import { StatesSheet } from './StatesSheet.tsx';
import { TimeSheet } from './TimeSheet.tsx';

/** The sheet of forms: every widget once, with invented figures. For whoever builds a screen. */
export function Kit(): ReactNode {
  return (
    <Place label="Sheet of forms">
      <div className={css['grid']}>
        <ControlsSheet />
        <StatesSheet />
        <TimeSheet />
        <CarsSheet />
      </div>
    </Place>
  );
}
