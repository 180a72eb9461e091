import { type ReactNode, useEffect } from 'react';
import { useTask } from '../../bridge/tasks.ts';
import { useText } from '../../bridge/texts.tsx';
import { Progress } from '../../ui/Acts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Opens the demo shop, or builds it anew: how far it is while that takes, then the window starts over in it. */
export function DemoBuild(props: { readonly rebuild: boolean; readonly children: string }): ReactNode {
  const t = useText();
  const demo = useTask('host.openDemo');
  const { value, progress } = demo;
  useEffect(() => {
    // Everything this window knows was of another shop.
    if (value) location.reload();
  }, [value]);
  return (
    <>
      {demo.running ? (
        <Progress label={t('shop.first.building')} done={progress?.done ?? 0} total={progress?.total ?? 1} />
      ) : (
        <Button onPress={() => demo.start({ rebuild: props.rebuild })}>{props.children}</Button>
      )}
      <Refusal refusal={demo.refusal} />
    </>
  );
}
