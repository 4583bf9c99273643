"use client";

import { useMemo, useRef, useState } from "react";
import { entryId } from "../../shared/board";
import type { Chapter, ChapterRequest, ReplayManifest } from "../../shared/replay";
import { inkShade } from "../ink";
import { captionText } from "../page/texts";
import { useWorking } from "../page/useWorking";
import { SheetButton } from "../paper";
import { Lookers, PeopleHere, type Person } from "../people";
import { type PaperSettings, usePaperSettings } from "../settings";
import { TOTAL } from "../sum";
import { CalledTo } from "./CalledTo";
import { Chapters } from "./Chapters";
import { Difference, type Held, HeldMoment } from "./Compare";
import { Faults } from "./Faults";
import { Find } from "./Find";
import KeepSheet from "./KeepSheet";
import KeysSheet from "./KeysSheet";
import { MomentSum } from "./MomentSum";
import { MomentWords } from "./MomentWords";
import { NotesColumn } from "./NotesColumn";
import type { ReplayPlayer } from "./player";
import { ReplayCursors } from "./ReplayCursors";
import { ReplayHead } from "./ReplayHead";
import styles from "./replay.module.css";
import type { ReplayApi } from "./replayApi";
import { namer, peopleAt } from "./replayPeople";
import SaveSheet from "./SaveSheet";
import ShareSheet from "./ShareSheet";
import { StillBoard, type StillPlace } from "./StillBoard";
import sessionStyles from "./session.module.css";
import stillStyles from "./still.module.css";
import { TimeRuler } from "./TimeRuler";
import { Transport } from "./Transport";
import { elapsedText } from "./times";
import { type Names, triesThen } from "./triedThen";
import { useFollowing } from "./useFollowing";
import { usePlayed, usePlaying } from "./usePlayer";
import { useReplayKeys } from "./useReplayKeys";
import { type Scene, useScene } from "./useScene";
import { WorkingPage } from "./WorkingPage";

type Props = {
  readonly room: string;
  readonly api: ReplayApi;
  readonly manifest: ReplayManifest;
  readonly player: ReplayPlayer;
  readonly secret: string | null;
  readonly missed: string | null;
};

/** A session on the page: when, what was on the board then, and what can be done with it. */
export function Session({ room, api, manifest, player, secret, missed }: Props) {
  const { viewer, participants } = manifest;
  const settings = usePaperSettings();
  const [chapters, editChapters] = useChapters(api, manifest);
  const [held, setHeld] = useState<Held | null>(null);
  const shown = usePlayed(player, (state) => state.shown);
  const answers = usePlayed(player, (state) => state.answers);
  const isAwaited = usePlayed(player, (state) => state.areAnswersAwaited && !state.isPlaying);
  const when = usePlayed(player, ({ at }) => elapsedText(player.timeOf(at) - player.beginning));
  const outdated = usePlayed(player, (state) => state.outdated);
  const nameOf = useMemo(() => namer(participants), [participants]);
  const names = useMemo(() => ({ you: viewer.number, nameOf }), [viewer.number, nameOf]);
  const scene = useScene(shown, { answers, outdated }, settings, names);
  const { view, marks } = scene;
  const people = useMemo(() => peopleAt(shown.moment, manifest), [shown.moment, manifest]);
  const follow = useFollowing(participants, people, scene);
  const working = useReplayWorking(player, scene, settings, names);
  const shade = (person: Person) => inkShade(person.mark.colour, settings.paper);
  const cardTitle = (key: string) => view.cards.find((card) => card.key === key && card.acting)?.title ?? "all sources";
  usePlaying(player);
  useReplayKeys(player, chapters);
  const ruler = useRef<HTMLElement>(null);
  const goTo = (sequence: number) => {
    player.goTo(sequence);
    bringBelow(ruler.current);
  };
  const hold = () => {
    const { at } = player.getState();
    setHeld({ shown, at, when, card: view.card?.key ?? TOTAL, focus: view.focus });
  };
  const now = (
    <>
      <StillBoard
        board={shown.board}
        figure={view.figure}
        caption={captionText(view.card, shown.board, view.becomes !== null)}
        label="The board"
        layers={working.layers}
        {...{ marks, settings }}
      >
        {(place: StillPlace) => (
          <>
            <CalledTo call={shown.moment.call} isFollowing={follow.isFollowing} place={place} />
            <ReplayCursors
              {...{ player, people, cardTitle, shade }}
              view={place.viewport.view}
              width={place.size.width}
              card={view.card?.key ?? TOTAL}
            />
            <div className={stillStyles.aboveWords}>{scene.steps.overlay(place)}</div>
          </>
        )}
      </StillBoard>
      <MomentWords {...{ room, api, player, secret, when }} mayGoOn={viewer.mayGoOn} hold={hold} />
    </>
  );
  const sum = (
    <MomentSum
      {...{ shown, scene, names, isAwaited }}
      {...(held ? { heading: `Shown: ${when}` } : {})}
      choose={follow.choose}
      lookersAt={(key) => <Lookers people={people.filter((person) => person.card === key)} shade={shade} />}
    />
  );
  return (
    <div className={styles.replay}>
      <ReplayHead
        room={room}
        board={shown.board}
        wanted={view.wanted}
        isMember={viewer.number !== null}
        people={<PeopleHere people={people} cardTitle={cardTitle} shade={shade} />}
      >
        <SheetButton word="Save">
          {(close) => (
            <SaveSheet
              {...{ api, room, when, marks, settings, close }}
              mayExport={viewer.mayManage}
              board={shown.board}
              figure={view.figure}
              shown={view.card?.acting ? view.card.title : "all sources"}
            />
          )}
        </SheetButton>
        <SheetButton word="Keys">{(close) => <KeysSheet close={close} />}</SheetButton>
        {viewer.mayManage && (
          <>
            <SheetButton word="Share">{(close) => <ShareSheet {...{ room, api, close }} />}</SheetButton>
            <SheetButton word="Keep or delete">{(close) => <KeepSheet {...{ room, api, close }} />}</SheetButton>
          </>
        )}
      </ReplayHead>
      <section ref={ruler} className={sessionStyles.session} aria-label="The session">
        <Transport player={player} nameOf={nameOf} />
        <TimeRuler player={player} manifest={manifest} chapters={chapters} paper={settings.paper} />
        <Faults player={player} missed={missed} />
      </section>
      {held ? (
        <main className={styles.compare}>
          <Difference {...{ held, shown, when }} />
          <section className={styles.side} aria-label={`This moment, ${when}`}>
            <header className={styles.sideHead}>
              <h2>Shown: {when}</h2>
            </header>
            <div className={styles.board}>{now}</div>
            {sum}
          </section>
          <HeldMoment key={held.at} {...{ held, api, settings, names }} letGo={() => setHeld(null)} />
        </main>
      ) : (
        <main className={styles.main}>
          <div className={styles.board}>{now}</div>
          <div className={styles.sum}>{sum}</div>
          <NotesColumn
            pages={[
              {
                word: "Working",
                content: () => (
                  <WorkingPage {...{ shown, scene, answers }} choice={follow.choice} panel={working.panel} />
                ),
              },
              {
                word: "Chapters",
                content: () => (
                  <Chapters {...{ player, chapters, nameOf, goTo }} edit={viewer.mayManage ? editChapters : null} />
                ),
              },
              { word: "Find", content: () => <Find {...{ player, chapters, participants, nameOf, goTo }} /> },
            ]}
          />
        </main>
      )}
    </div>
  );
}

/** On a phone, where the page has been scrolled beneath the ruler, brings what comes next after it into sight: the board. */
function bringBelow(ruler: HTMLElement | null): void {
  const next = ruler?.nextElementSibling?.firstElementChild;
  if (!ruler || !next) return;
  const covered = ruler.getBoundingClientRect().bottom - next.getBoundingClientRect().top;
  if (covered > 1) window.scrollBy(0, -covered);
}

/** The chapters, and the way to change them, which gives what the server said against it. */
function useChapters(api: ReplayApi, manifest: ReplayManifest) {
  const [chapters, setChapters] = useState<readonly Chapter[]>(manifest.chapters);
  const edit = async (request: ChapterRequest): Promise<string | null> => {
    const answer = await api.editChapters(request);
    if (!answer.ok) return answer.refusal.text;
    setChapters(answer.value);
    return null;
  };
  return [chapters, edit] as const;
}

const NO_CONNECTION = { command: () => {}, request: () => {} };
const NO_ID = () => entryId("");

/** The worked lines of the moment, to be read. */
function useReplayWorking(
  player: ReplayPlayer,
  { view, openSources, outdated, steps }: Scene,
  settings: PaperSettings,
  names: Names,
) {
  const shown = usePlayed(player, (state) => state.shown);
  const answers = usePlayed(player, (state) => state.answers);
  const workings = usePlayed(player, (state) => state.workings);
  return useWorking({
    state: { ...shown, answers, workings, room: null },
    connection: NO_CONNECTION,
    view,
    settings,
    newId: NO_ID,
    openSources,
    triesOf: (card) => triesThen(shown.moment.tries, view.wanted?.name ?? null, card, names, outdated),
    steps,
  });
}
