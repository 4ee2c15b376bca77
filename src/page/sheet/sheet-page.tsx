import { type Dispatch, type ReactNode, useMemo, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { contactLabels } from '../../words/index.ts';
import { useCall } from '../choices/use-call.ts';
import { TopLine } from '../job/top-line.tsx';
import { showClient } from '../link/index.ts';
import { addressOf, jobOf, type PageAction, type PageState, trayCode } from '../state/index.ts';
import { CompareView } from './compare/compare-view.tsx';
import { HandBar } from './hand-bar.tsx';
import { NothingHere } from './nothing-here.tsx';
import { PrintSheet } from './print-sheet.tsx';
import { type Field, SheetField } from './sheet-field.tsx';
import { SheetHead } from './sheet-head.tsx';
import { SheetKeyCard } from './sheet-key-card.tsx';
import { titleOf } from './sheet-title.ts';
import { handled } from './state/hand.ts';
import { isFiltered } from './state/sheet-filter.ts';
import { useCompared } from './use-compared.ts';
import { useHand } from './use-hand.ts';
import { useMarking } from './use-marking.ts';
import { useMoving } from './use-moving.ts';
import { useOrder } from './use-order.ts';
import { useSheet } from './use-sheet.ts';
import { useSheetHand } from './use-sheet-hand.ts';
import { useSheetKeys } from './use-sheet-keys.ts';
import '../style/sheet.css';
import '../style/compare.css';
import '../style/contact-print.css';

interface SheetPageProps {
  readonly state: PageState;
  readonly code: string | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** Choosing: the frames of a job under their shots, as on contact sheets that grow by themselves. */
export function SheetPage({ state, code, dispatch }: SheetPageProps): ReactNode {
  const { job, groups, lying, cameras, wish, change } = useSheet(state, code);
  const field = useRef<Field | null>(null);
  const [element, setElement] = useState<HTMLDivElement | null>(null);
  const { hand, tell, step } = useHand(groups, lying, field);
  const [several, setSeveral] = useState(false);
  const compare = useCompared(state, lying, tell);
  const [printing, setPrinting] = useState(false);
  const [keysShown, setKeysShown] = useState(false);
  const call = useCall();
  const { refusal, run } = call;
  const { said, mark } = useMarking(state, call);
  const moving = useMoving(job.code, run);
  const trouble = [refusal, said, moving.said].filter((each) => each !== '').join(' ');
  const ordering = useOrder(state, job.code, groups, run);
  const client = state.client.get(job.code)?.frame ?? null;

  const isKnown = job.code === trayCode || state.jobs === null || jobOf(state.jobs, job.code) !== null;
  const here = useMemo(() => new Set(lying), [lying]);
  const ids = useMemo(() => handled(hand, here), [hand, here]);
  const frames = useMemo(
    () => ids.flatMap((id): Frame[] => [state.frames.byId.get(id)].filter((frame) => frame !== undefined)),
    [ids, state.frames],
  );
  const common = frames.every(({ mark }) => mark === frames[0]?.mark) ? (frames[0]?.mark ?? null) : null;

  const toClient = (): void => {
    const frame = ids.length === 1 ? (ids[0] ?? null) : null;
    void run(() => showClient({ job: job.code, frame }), contactLabels.toClient);
  };
  const only = ids.length === 1 ? ids[0] : undefined;
  const order = (by: -1 | 1): void => {
    if (only !== undefined) ordering.step(only, by);
  };

  useSheetKeys(compare.frames.length === 0 && !printing, state.letterKeys, {
    mark: (chosen) => mark(chosen, frames),
    step,
    add: () => {
      if (hand.at !== null) tell({ type: 'add', id: hand.at, chosen: hand.chosen });
    },
    all: () => tell({ type: 'all', lying }),
    empty: () => tell({ type: 'empty' }),
    look: () => compare.look(ids),
    client: toClient,
    order,
  });
  useSheetHand(element, {
    several,
    lying,
    tell,
    look: (id) => compare.look([id]),
    put: ordering.put,
  });

  if (printing) {
    return (
      <PrintSheet
        job={job}
        title={titleOf(state, job.code)}
        groups={groups}
        only={ids.length > 1 ? new Set(ids) : null}
        inOrder={wish.sort === 'time'}
        onClose={() => setPrinting(false)}
      />
    );
  }
  return (
    <div
      className="sheet-page"
      data-surround={state.dimSurround ? 'dim' : 'grey'}
      data-comparing={compare.frames.length > 0}
      ref={setElement}
    >
      <TopLine state={state} />
      <main className="sheet-main">
        <SheetHead
          state={state}
          job={job}
          isKnown={isKnown}
          groups={groups}
          cameras={cameras}
          wish={wish}
          change={change}
          trouble={trouble}
          count={lying.length}
          field={field}
        />
        <SheetField groups={groups} hand={hand} field={field} reading={!state.allFrames}>
          {lying.length === 0 && state.link.state !== 'connecting' ? (
            <NothingHere asked={isFiltered(wish.filter)} unknown={isKnown ? null : job.code} />
          ) : null}
        </SheetField>
        <HandBar
          count={ids.length}
          mark={common}
          several={several}
          client={client}
          order={only === undefined ? null : ordering.ways(only)}
          shots={isKnown && job.code !== trayCode ? job.shots : []}
          onShot={(shot) => moving.move(ids, shot)}
          onMark={(chosen) => mark(chosen, frames)}
          onSeveral={() => setSeveral(!several)}
          onEmpty={() => tell({ type: 'empty' })}
          onLook={() => compare.look(ids)}
          onClient={toClient}
          onOrder={order}
          onKeys={() => setKeysShown(true)}
          onPrint={() => setPrinting(true)}
        />
      </main>
      <SheetKeyCard
        open={keysShown}
        letterKeys={state.letterKeys}
        onLetterKeys={() => dispatch({ type: 'switch', what: 'letterKeys' })}
        onClose={() => setKeysShown(false)}
      />
      {compare.frames.length === 0 ? null : (
        <CompareView
          state={state}
          frames={compare.frames}
          trouble={trouble}
          onMark={(chosen, frame) => mark(chosen, [frame])}
          onSet={(id) => {
            dispatch({ type: 'choose', id });
            // In the place of the step that closes what lies over the sheet: the way back from there leads to the sheet at once.
            location.replace(addressOf({ page: 'set' }));
          }}
          onBeside={compare.beside}
          onClose={compare.close}
        />
      )}
    </div>
  );
}
