import type { ReactNode } from 'react';
import { isTextKey } from '#core/shared/text/say.ts';
import type { ListFault } from '#core/shared/views/stockItem.ts';
import { useText } from '../../bridge/texts.tsx';
import { Item, List } from '../../ui/List.tsx';

/** Where a list does not fit, line by line. */
export function Faults(props: { readonly label: string; readonly of: readonly ListFault[] }): ReactNode {
  if (props.of.length === 0) return null;
  return (
    <List label={props.label}>
      {props.of.map((fault) => (
        <Item key={`${fault.line} ${fault.field} ${fault.problem}`} lit>
          <Fault of={fault} />
        </Item>
      ))}
    </List>
  );
}

/** The column is named as it stands in the file. */
function Fault(props: { readonly of: ListFault }): ReactNode {
  const t = useText();
  const { line, field, problem, limit } = props.of;
  const key = `problem.${problem}`;
  const said = isTextKey(key) ? t(key, { limit: limit ?? '' }) : problem;
  return <span>{t('stock.ui.listFault', { line, field, problem: said })}</span>;
}
