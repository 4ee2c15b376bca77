import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { marks } from '../../facts/index.ts';
import { contactLabels, markNames, standingNames } from '../../words/index.ts';
import type { Standing } from '../set/worst-judgement.ts';
import { isFiltered, noFilter, type SheetFilter, type SheetSort, sheetSorts } from './state/sheet-filter.ts';
import type { SheetJob, SheetWish } from './state/sheet-groups.ts';

interface SheetAsksProps {
  readonly job: SheetJob;
  readonly cameras: readonly string[];
  readonly wish: SheetWish;
  readonly change: (part: Partial<SheetWish>) => void;
}

const standings: readonly Standing[] = ['good', 'accepted', 'doubt', 'bad', 'unknown'];

/** What is asked of the frames, and how they lie, in one line of fields. */
export function SheetAsks({ job, cameras, wish, change }: SheetAsksProps): ReactNode {
  const { filter } = wish;
  const ask = (part: Partial<SheetFilter>): void => change({ filter: { ...filter, ...part } });
  return (
    <fieldset className="sheet-asks">
      <legend className="unseen">{contactLabels.ask}</legend>
      <Choice
        label={contactLabels.shot}
        value={filter.shot}
        any={contactLabels.anyShot}
        options={[
          ...job.shots.map(({ id, name }) => [id, name] as const),
          ['', contactLabels.noShot] as const,
        ]}
        take={(shot) => ask({ shot })}
      />
      <Choice
        label={contactLabels.verdict}
        value={filter.standing}
        any={contactLabels.anyStanding}
        options={standings.map((standing) => [standing, standingNames[standing]] as const)}
        take={(standing) => ask({ standing })}
      />
      <Choice
        label={contactLabels.mark}
        value={filter.mark}
        any={contactLabels.anyMark}
        options={[
          ['chosen', contactLabels.chosen] as const,
          ...marks.map((mark) => [mark, mark === 'none' ? contactLabels.noMark : markNames[mark]] as const),
        ]}
        take={(mark) => ask({ mark })}
      />
      {cameras.length > 1 ? (
        <Choice
          label={contactLabels.camera}
          value={filter.camera}
          any={contactLabels.anyCamera}
          options={cameras.map((camera) => [camera, camera] as const)}
          take={(camera) => ask({ camera })}
        />
      ) : null}
      <label>
        <span>{contactLabels.from}</span>
        <input
          type="time"
          value={filter.fromTime}
          onChange={(event) => ask({ fromTime: event.target.value })}
        />
      </label>
      <label>
        <span>{contactLabels.to}</span>
        <input type="time" value={filter.toTime} onChange={(event) => ask({ toTime: event.target.value })} />
      </label>
      <label>
        <span>{contactLabels.text}</span>
        <input
          type="search"
          title={contactLabels.textHelp}
          value={filter.text}
          maxLength={120}
          onChange={(event) => ask({ text: event.target.value })}
        />
      </label>
      <label>
        <span>{contactLabels.sort}</span>
        <select
          aria-label={contactLabels.sort}
          value={wish.sort}
          onChange={(event) => {
            const sort = sheetSorts.find((each): each is SheetSort => each === event.target.value);
            if (sort !== undefined) change({ sort });
          }}
        >
          {sheetSorts.map((sort) => (
            <option key={sort} value={sort}>
              {contactLabels.sorts[sort]}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        className="press"
        aria-pressed={wish.byShot}
        onClick={() => change({ byShot: !wish.byShot })}
      >
        {contactLabels.byShot}
      </button>
      {isFiltered(filter) ? (
        <button type="button" className="press" onClick={() => change({ filter: noFilter })}>
          {contactLabels.everything}
        </button>
      ) : null}
    </fieldset>
  );
}

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly any: string;
  readonly options: readonly (readonly [T, string])[];
  readonly take: (value: T | null) => void;
}

/** A list whose first line asks nothing. */
function Choice<T extends string>({ label, value, any, options, take }: ChoiceProps<T>): ReactNode {
  return (
    <label>
      <span>{label}</span>
      {/* Named by itself: the words of its list are no part of its name. */}
      <select
        aria-label={label}
        value={value === null ? -1 : options.findIndex(([each]) => each === value)}
        onChange={(event) => take(options[Number(event.target.value)]?.[0] ?? null)}
      >
        <option value={-1}>{any}</option>
        {options.map(([each, words], index) => (
          <option key={each} value={index}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** The cameras that took frames of a job, by name. */
export function camerasOf(frames: readonly Frame[], job: string): string[] {
  const names = new Set<string>();
  for (const frame of frames) if (frame.job === job) names.add(frame.camera);
  return [...names].sort();
}
