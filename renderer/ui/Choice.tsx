import { type ReactNode, useId } from 'react';
import css from './Choice.module.css';

export type Option<V extends string> = {
  readonly value: V;
  readonly label: string;
  /** A small figure after the word, such as how many there are. */
  readonly count?: number | string | undefined;
  /** Why it can't be chosen now. */
  readonly why?: string | undefined;
};
type ChoiceProps<V extends string> = {
  readonly label: string;
  readonly options: readonly Option<V>[];
  readonly value: V | null;
  readonly onChange: (value: V) => void;
};

function Radios<V extends string>(
  props: ChoiceProps<V> & {
    readonly className: string | undefined;
    readonly item: string | undefined;
    readonly seen: boolean;
  },
): ReactNode {
  const name = useId();
  return (
    <fieldset className={css['group']}>
      <legend className={props.seen ? css['legend'] : 'unseen'}>{props.label}</legend>
      <div className={props.className}>
        {props.options.map((option) => (
          <label
            key={option.value}
            className={props.item}
            data-on={option.value === props.value}
            data-off={option.why !== undefined}
            data-text={option.label}
            title={option.why}
          >
            <input
              type="radio"
              className={css['native']}
              name={name}
              checked={option.value === props.value}
              disabled={option.why !== undefined}
              onChange={() => props.onChange(option.value)}
            />
            {option.label}
            {option.count === undefined ? null : <span className={css['count']}>{option.count}</span>}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** One of some words in a quiet row; the chosen one has the line to its left. Filters, layers, views. */
export function Words<V extends string>(props: ChoiceProps<V>): ReactNode {
  return <Radios {...props} className={css['words']} item={css['word']} seen={false} />;
}

/** One of a few, boxed, with its label above: a setting of a form. */
export function Segmented<V extends string>(props: ChoiceProps<V> & { readonly bare?: boolean }): ReactNode {
  return <Radios {...props} className={css['segmented']} item={css['segment']} seen={props.bare !== true} />;
}

type ToggleProps = {
  readonly label: ReactNode;
  readonly value: boolean;
  readonly onChange: (value: boolean) => void;
  readonly why?: string | undefined;
};

function Toggle(props: ToggleProps & { readonly mark: string; readonly role?: 'switch' }): ReactNode {
  return (
    <label
      className={css['check']}
      data-on={props.value}
      data-off={props.why !== undefined}
      title={props.why}
    >
      <input
        type="checkbox"
        role={props.role}
        className={css['native']}
        checked={props.value}
        disabled={props.why !== undefined}
        onChange={(e) => props.onChange(e.currentTarget.checked)}
      />
      <span className={css[props.mark]} aria-hidden="true" />
      <span>{props.label}</span>
    </label>
  );
}

/** Yes or no as part of something that is sent together. */
export function Check(props: ToggleProps): ReactNode {
  return <Toggle {...props} mark="box" />;
}

/** Yes or no that takes effect at once. */
export function Switch(props: ToggleProps): ReactNode {
  return <Toggle {...props} mark="rail" role="switch" />;
}
