import type { ReactNode } from 'react';
import type { Edited, Fields } from '../bridge/edited.ts';
import { useText } from '../bridge/texts.tsx';
import { LinkButton } from './Button.tsx';
import { CalmNote } from './States.tsx';

/** Another window saved under this form: what it changed, and, where that was being typed here too, the choice. */
export function Elsewhere<T extends Fields>(props: {
  readonly edited: Edited<T>;
  readonly stored: T;
  readonly label: (field: keyof T & string) => string;
  /** A value as people read it; as it stands where nothing is said. */
  readonly value?: (field: keyof T & string) => string;
}): ReactNode {
  const t = useText();
  const { edited, stored } = props;
  const said = (fields: readonly (keyof T)[]): string =>
    fields
      .map((key) => {
        const field = key as keyof T & string;
        const value = props.value?.(field) ?? String(stored[field] ?? '');
        return t('ui.elsewhere.field', { label: props.label(field), value: value || '–' });
      })
      .join(', ');
  if (edited.clashes.length > 0)
    return (
      <div role="status">
        <CalmNote title={t('ui.elsewhere.clash')} text={said(edited.clashes)}>
          <LinkButton onPress={edited.keepMine}>{t('ui.elsewhere.mine')}</LinkButton>
          <LinkButton onPress={edited.takeTheirs}>{t('ui.elsewhere.theirs')}</LinkButton>
        </CalmNote>
      </div>
    );
  if (edited.merged.length === 0) return null;
  return (
    <p className="t1 quiet" role="status">
      {t('ui.elsewhere.merged', { fields: said(edited.merged) })}
    </p>
  );
}
