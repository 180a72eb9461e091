import type { ReactNode } from 'react';
import type { Edited, Fields } from '../../bridge/edited.ts';
import { useText } from '../../bridge/texts.tsx';
import { ElsewhereNote } from '../../ui/ElsewhereNote.tsx';

/** What another window saved under a form of the shop, by the labels of its fields. */
export function Elsewhere<T extends Fields>(props: {
  readonly edited: Edited<T>;
  readonly stored: T;
  readonly label: (field: keyof T & string) => string;
  /** A value as people read it; as it stands where nothing is said. */
  readonly value?: (field: keyof T & string) => string;
}): ReactNode {
  const { edited, stored, label } = props;
  const field = (key: keyof T): { label: string; value: string } => ({
    label: label(key as keyof T & string),
    value: props.value?.(key as keyof T & string) ?? String(stored[key]),
  });
  return (
    <ElsewhereNote
      clashes={edited.clashes.map(field)}
      merged={edited.merged.map(field)}
      onMine={edited.keepMine}
      onTheirs={edited.takeTheirs}
    />
  );
}

/** That what stands in the form is kept. */
export function Saved(props: { readonly when: boolean }): ReactNode {
  const t = useText();
  if (!props.when) return null;
  return (
    <span className="t1 quiet" role="status">
      {t('shop.saved')}
    </span>
  );
}
