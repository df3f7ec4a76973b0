import { isCued, rungAt } from "../../../shared/advice/ladder.ts";
import type { FamilyReading, WentWell } from "../../../shared/reading/told/family-reading.ts";
import { type Program, programFor } from "../../../shared/roster/program.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { Picture } from "../../class/pictures/picture.tsx";
import { pictureNamed } from "../../class/pictures/picture-names.ts";
import { wordEvery } from "../../words/plan-summary.ts";
import { useVoice } from "../../words/use-voice.ts";
import type { Voice } from "../../words/words.ts";
import { LinesLeft } from "../lines-left.tsx";
import { WriteLine } from "../write-line.tsx";
import { Pebbles } from "./pebbles.tsx";

interface FamilySheetProps {
  readonly group: Group;
  readonly student: Student;
  readonly reading: FamilyReading;
  readonly program: Program;
  /** School-local day of printing. */
  readonly today: string;
  /** What counts as working, where it is written in the page's language; empty otherwise. */
  readonly target: string;
  /** The adult's own words; empty leaves lines to write them on. */
  readonly words: string;
}

/** From so many letters on everything is set a little smaller, so that the page stays one. */
const manyLetters = 250;

/** What a family is told, on one page: what went well, what comes next, and a word from school. */
export function FamilySheet(props: FamilySheetProps) {
  const { group, student, reading, program, today, target, words } = props;
  const voice = useVoice();
  const { say, formats } = voice;
  const { name } = student;
  const { lately } = reading;
  const picture = pictureNamed(student.picture);
  const next = nextSteps(voice, programFor(program, student), name);
  return (
    <div className={words.length > manyLetters ? "family family-tight" : "family"}>
      <header className="family-head">
        {picture === null ? null : (
          <span className="family-picture">
            <Picture name={picture} />
          </span>
        )}
        <div>
          <h2>{say("familyPage.heading", { name })}</h2>
          <p>
            {lately === null
              ? say("familyPage.aboutNone", { group: group.name, day: formats.fullDay(today) })
              : say("familyPage.about", {
                  group: group.name,
                  first: formats.shortDay(lately.first),
                  last: formats.fullDay(lately.last),
                })}
          </p>
        </div>
      </header>
      <p>{say("familyPage.how", { name })}</p>
      {target === "" ? null : <p>{say("familyPage.target", { target })}</p>}
      <HowOften reading={reading} name={name} />
      {reading.well.length === 0 ? null : (
        <section>
          <h3>{say("familyPage.well")}</h3>
          <ul>
            {reading.well.map((one) => (
              <li key={one.kind}>{wordWell(voice, one, name)}</li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h3>{say("familyPage.next")}</h3>
        <ul>
          {reading.harder ? <li>{say("familyPage.next.harder", { name })}</li> : null}
          {next.map((words) => (
            <li key={words}>{words}</li>
          ))}
          <li>{say("familyPage.next.home")}</li>
        </ul>
      </section>
      <section className="family-words">
        <h3>{say("familyPage.words")}</h3>
        {words === "" ? <LinesLeft /> : <p className="family-own">{words}</p>}
        <div className="family-signed">
          <WriteLine label={say("familyPage.signed")} />
        </div>
      </section>
      <p className="family-foot">{say("familyPage.foot")}</p>
    </div>
  );
}

/** Of every ten times asked, about so many; how sure that is; or counts alone where it is too early. */
function HowOften({ reading, name }: { reading: FamilyReading; name: string }) {
  const { say } = useVoice();
  const { lately, often } = reading;
  if (lately === null) return <p className="family-lead">{say("familyPage.none", { name })}</p>;
  const { marks, on, sessions } = lately;
  if (often === null || often.kind === "not-enough") {
    return <p className="family-lead">{say("familyPage.early", { name, marks, on })}</p>;
  }
  const about = on === marks ? "all" : on === 0 ? "none" : `n${often.about}`;
  const number = (n: number) => say("familyPage.number", { n: `n${n}` });
  return (
    <div className="family-often">
      <p className="family-lead">{say("familyPage.often", { about })}</p>
      <Pebbles
        filled={often.about}
        label={say("familyPage.pebbles", { filled: number(often.about) })}
      />
      <p>
        {say("familyPage.error", {
          marks,
          sessions,
          low: number(often.low),
          high: number(often.high),
        })}
      </p>
    </div>
  );
}

/** One thing that went well, in words. */
function wordWell({ say, formats }: Voice, one: WentWell, name: string): string {
  switch (one.kind) {
    case "rising":
      return say("familyPage.well.rising", { sure: one.sure, day: formats.shortDay(one.since) });
    case "best":
      return say("familyPage.well.best", { ...one, day: formats.day(one.day) });
    default:
      return say(`familyPage.well.${one.kind}`, { ...one, name });
  }
}

/** The goal, and the step on which the program stands. */
function nextSteps({ say }: Voice, program: Program, name: string): string[] {
  const { goal, place, stepMeansSeconds } = program;
  const rung = rungAt({ cueSteps: stepMeansSeconds.length }, place);
  const mean = stepMeansSeconds[place] ?? 0;
  return [
    ...(isCued(rung) || rung === "recording-without-cues"
      ? [
          say("familyPage.next.goal", {
            goal: say("familyPage.number", { n: `n${Math.round(10 * goal)}` }),
          }),
        ]
      : []),
    say(`familyPage.next.${rung}`, { name, mean: isCued(rung) ? wordEvery(say, mean) : "" }),
  ];
}
