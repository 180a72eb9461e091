import type { ReactNode } from 'react';
import { useText } from '../bridge/texts.tsx';
import { LinkButton } from './Button.tsx';
import { CalmNote } from './States.tsx';

/** A field that was changed in another window: what it is called, and what stands there now. */
export type ElsewhereField = { readonly label: string; readonly value: string };

/** Another window saved under this form: what it changed, and, where that was being typed here too, the choice. */
export function ElsewhereNote(props: {
  readonly clashes: readonly ElsewhereField[];
  readonly merged: readonly ElsewhereField[];
  readonly onMine: () => void;
  readonly onTheirs: () => void;
}): ReactNode {
  const t = useText();
  const { clashes, merged } = props;
  const said = (fields: readonly ElsewhereField[]): string =>
    fields.map(({ label, value }) => t('ui.elsewhere.field', { label, value: value || '–' })).join(', ');
  if (clashes.length > 0)
    return (
      <div role="status">
        <CalmNote title={t('ui.elsewhere.clash')} text={said(clashes)}>
          <LinkButton onPress={props.onMine}>{t('ui.elsewhere.mine')}</LinkButton>
          <LinkButton onPress={props.onTheirs}>{t('ui.elsewhere.theirs')}</LinkButton>
        </CalmNote>
      </div>
    );
  if (merged.length === 0) return null;
  return (
    <p className="t1 quiet" role="status">
      {t('ui.elsewhere.merged', { fields: said(merged) })}
    </p>
  );
}
