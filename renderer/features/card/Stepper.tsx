import type { ReactNode } from 'react';
import card from './card.module.css';
import css from './stepper.module.css';

/** A field between two large buttons that step it; what is typed in the field counts too. */
export function Stepper(props: {
  /** Said to the ear with − and +. */
  readonly name: string;
  readonly onStep: (by: 1 | -1) => void;
  /** Also a step this much larger, named by `bigName`. */
  readonly onBig?: ((by: 1 | -1) => void) | undefined;
  readonly bigName?: string;
  readonly children: ReactNode;
}): ReactNode {
  const { name, onStep, onBig, bigName = '' } = props;
  return (
    <div className={css['stepper']} data-big={onBig !== undefined}>
      {onBig ? (
        <button
          type="button"
          className={card['key']}
          aria-label={`${name} −${bigName}`}
          onClick={() => onBig(-1)}
        >
          −{bigName}
        </button>
      ) : null}
      <button type="button" className={card['key']} aria-label={`${name} −`} onClick={() => onStep(-1)}>
        −
      </button>
      {props.children}
      <button type="button" className={card['key']} aria-label={`${name} +`} onClick={() => onStep(1)}>
        +
      </button>
      {onBig ? (
        <button
          type="button"
          className={card['key']}
          aria-label={`${name} +${bigName}`}
          onClick={() => onBig(1)}
        >
          +{bigName}
        </button>
      ) : null}
    </div>
  );
}
