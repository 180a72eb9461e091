import { type ReactNode, useId } from 'react';
import { Select as AriaSelect, Button, ListBox, ListBoxItem, Popover } from 'react-aria-components';
import { useText } from '../bridge/texts.tsx';
import field from './Field.module.css';
import css from './Select.module.css';

export type SelectOption<V extends string> = {
  readonly value: V;
  readonly label: string;
  readonly note?: string | undefined;
  readonly why?: string | undefined;
};

/** One of many, from a list that opens; typing jumps to it. */
export function Select<V extends string>(props: {
  readonly label: string;
  readonly options: readonly SelectOption<V>[];
  readonly value: V | null;
  readonly onChange: (value: V) => void;
  readonly hint?: ReactNode;
  readonly note?: ReactNode;
  readonly error?: ReactNode;
  readonly off?: string | undefined;
  readonly placeholder?: string;
}): ReactNode {
  const t = useText();
  const id = useId();
  const chosen = props.options.find((o) => o.value === props.value);
  const said = props.error ?? props.note ?? props.off;
  return (
    <AriaSelect
      className={css['select'] ?? ''}
      aria-labelledby={id}
      selectedKey={props.value}
      onSelectionChange={(key) => (key === null ? undefined : props.onChange(String(key) as V))}
      isDisabled={props.off !== undefined}
      isInvalid={props.error !== undefined && props.error !== null}
    >
      <span id={id} className={field['label']}>
        <span className="cut">{props.label}</span>
        {props.hint ? <span className={field['hint']}>{props.hint}</span> : null}
      </span>
      <Button className={css['button'] ?? ''} aria-label={`${props.label}: ${chosen?.label ?? t('ui.none')}`}>
        <span className={chosen ? 'cut' : `cut ${css['placeholder']}`}>
          {chosen?.label ?? props.placeholder ?? t('ui.choose')}
        </span>
        <span className={css['arrow']} aria-hidden="true" />
      </Button>
      {said ? <div className={props.error ? field['error'] : field['note']}>{said}</div> : null}
      <Popover className={css['pop'] ?? ''} offset={2}>
        <ListBox
          className={css['list'] ?? ''}
          aria-label={props.label}
          disabledKeys={props.options.filter((o) => o.why).map((o) => o.value)}
        >
          {props.options.map((o) => (
            <ListBoxItem key={o.value} id={o.value} textValue={o.label} className={css['item'] ?? ''}>
              <span>{o.label}</span>
              {(o.why ?? o.note) ? <span className="t1 dusty">{o.why ?? o.note}</span> : null}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </AriaSelect>
  );
}
