import { type ReactNode, useId, useState } from 'react';
import { UNREAD } from '../bridge/commands.ts';
import { useText } from '../bridge/texts.tsx';
import css from './Field.module.css';
import { lettersOf } from './letters.ts';
import { useStill } from './still.ts';

export type FieldFrame = {
  readonly label: string;
  /** To the right of the label, dusty: "if she has it there". */
  readonly hint?: ReactNode;
  /** Under the field, dusty. */
  readonly note?: ReactNode;
  /** Under the field, lit: what is wrong and what would do. */
  readonly error?: ReactNode;
  /** Why it can't be changed now; its presence switches the field off. */
  readonly off?: string | undefined;
};
export type FieldIds = { readonly id: string; readonly describedBy: string | undefined };

/** Label, box, unit, and one line of error or note, tied together for screen readers. */
export function Field(
  props: FieldFrame & { readonly unit?: ReactNode; readonly children: (ids: FieldIds) => ReactNode },
): ReactNode {
  const id = useId();
  const said = useStill(props.error ?? props.note ?? props.off);
  const wrong = useStill(Boolean(props.error));
  const describedBy = said ? `${id}-said` : undefined;
  return (
    <div className={css['field']}>
      <label className={css['label']} htmlFor={id}>
        <span className="cut">{props.label}</span>
        {props.hint ? <span className={css['hint']}>{props.hint}</span> : null}
      </label>
      <div
        className={css['box']}
        data-bad={props.error ? true : undefined}
        data-off={props.off !== undefined ? true : undefined}
        title={props.off}
      >
        {props.children({ id, describedBy })}
        {props.unit ? <span className={css['unit']}>{props.unit}</span> : null}
      </div>
      {said ? (
        <div
          id={`${id}-said`}
          className={wrong ? css['error'] : css['note']}
          role={wrong ? 'alert' : undefined}
        >
          {said}
        </div>
      ) : null}
    </div>
  );
}

export type TextFieldProps = FieldFrame & {
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** When the person leaves the field or presses Enter: the moment to save. */
  readonly onDone?: (value: string) => void;
  readonly unit?: ReactNode;
  readonly placeholder?: string;
  readonly lines?: number;
  readonly secret?: boolean;
  /** Letters that it takes at most. */
  readonly maxLength?: number;
  readonly autoFocus?: boolean;
  readonly kind?: 'text' | 'tel' | 'email' | 'search';
};

/**
 * A line or some lines of text; a secret one is hidden until it is asked to be shown. Near the most that it takes it says
 * how much is left; beyond it nothing is cut, and nothing on the page is saved until it fits.
 */
export function TextField(props: TextFieldProps): ReactNode {
  const t = useText();
  const [peeks, setPeeks] = useState(false);
  const unit = props.secret ? <Peek on={peeks} onChange={setPeeks} /> : props.unit;
  const letters = lettersOf(props.value, props.maxLength);
  const near = letters.is === 'near' ? t('ui.field.left', { left: letters.left }) : undefined;
  const over =
    letters.is === 'over' ? t('ui.field.over', { over: letters.by, most: props.maxLength ?? 0 }) : undefined;
  const error = over ?? props.error;
  return (
    <Field {...props} unit={unit} note={near ?? props.note} error={error}>
      {({ id, describedBy }) => {
        const shared = {
          id,
          className: css['input'],
          value: props.value,
          placeholder: props.placeholder,
          readOnly: props.off !== undefined,
          'aria-describedby': describedBy,
          'aria-invalid': error ? true : undefined,
          ...(over ? { [UNREAD]: props.label } : {}),
          autoComplete: 'off',
          spellCheck: false,
          autoFocus: props.autoFocus,
          onBlur: () => props.onDone?.(props.value),
        };
        if (props.lines)
          return (
            <textarea
              {...shared}
              rows={props.lines}
              onChange={(e) => props.onChange(e.currentTarget.value)}
            />
          );
        return (
          <input
            {...shared}
            type={props.secret && !peeks ? 'password' : (props.kind ?? 'text')}
            onChange={(e) => props.onChange(e.currentTarget.value)}
            onKeyDown={(e) => {
              if (e.key === 'Enter') props.onDone?.(props.value);
            }}
          />
        );
      }}
    </Field>
  );
}

/** Shows what is typed as long as it is pressed in: a slip in a PIN would lock its owner out. */
function Peek(props: { readonly on: boolean; readonly onChange: (on: boolean) => void }): ReactNode {
  const t = useText();
  return (
    <button
      type="button"
      className={css['peek']}
      aria-pressed={props.on}
      onClick={() => props.onChange(!props.on)}
    >
      {props.on ? t('ui.hideTyped') : t('ui.showTyped')}
    </button>
  );
}
