import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';

export type DateChoice = 'ask' | 'today' | 'lastDay';

/** The answers to a date that was refused as doubtful: today's is right, or the last document's. */
export function DateAnswers(props: {
  readonly code: string | undefined;
  readonly onDate: (date: DateChoice) => void;
}): ReactNode {
  const t = useText();
  if (props.code === 'ISSUE_DATE_AHEAD')
    return <LinkButton onPress={() => props.onDate('today')}>{t('invoice.issueToday')}</LinkButton>;
  if (props.code === 'ISSUE_DATE_BEHIND')
    return <LinkButton onPress={() => props.onDate('lastDay')}>{t('invoice.issueLastDay')}</LinkButton>;
  return null;
}
