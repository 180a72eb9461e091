import type { ReactNode } from 'react';
import { isTextKey } from '#core/shared/text/say.ts';
import type { ReasonView, Sentence } from '#core/shared/views/stockSentence.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { WhyBox } from '../../ui/Figure.tsx';
import { partsOf, valueText } from './looks.ts';

/** A sentence with its figures set strong. */
export function Said(props: { readonly sentence: Sentence }): ReactNode {
  const manner = useManner();
  return partsOf(manner, props.sentence).map((part, i) =>
    part.figure ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: parts of one sentence, never reordered
      <b key={i} className="num">
        {part.text}
      </b>
    ) : (
      part.text
    ),
  );
}

/** What a suggestion rests on, opened in place. */
export function Reasoning(props: { readonly reason: ReasonView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const word = (key: string): string => (isTextKey(key) ? t(key) : key);
  return (
    <WhyBox
      why={{
        inputs: props.reason.inputs.map((input) => ({
          label: word(input.key),
          value: valueText(manner, input.value),
        })),
        rule: word(props.reason.rule),
        source: word(props.reason.source),
      }}
    />
  );
}
