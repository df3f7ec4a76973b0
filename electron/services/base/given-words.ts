import type { Settings } from "../../../shared/api/app.ts";

interface GivenWords {
  readonly firstPlan: string;
  /** In the place of a plan, for sessions of which only the counts are known. */
  readonly importedPlan: string;
  readonly sampleClass: string;
  readonly sampleTarget: string;
  readonly sampleNote: string;
  readonly sampleInterruption: string;
  readonly samplePrivileges: readonly string[];
  readonly sampleTeams: readonly string[];
  /** Who answered what was agreed; goals and lessons of a home card, and a line on one. */
  readonly sampleFamily: string;
  readonly sampleGoals: readonly string[];
  readonly sampleLessons: readonly string[];
  readonly sampleWentWell: string;
  /** What a contract earns beside points, and who looks at it. */
  readonly sampleEarns: string;
  readonly sampleAdult: string;
}

/**
 * Words that the desktop side writes into the data in the teacher's language; from then on they are the
 * teacher's own and may be changed.
 */
export const givenWords: Readonly<Record<Settings["language"], GivenWords>> = {
  en: {
    firstPlan: "First plan",
    importedPlan: "Earlier records",
    sampleClass: "Sample class (invented)",
    sampleTarget: "My eyes and hands are on my own work, or I am asking for help with it.",
    sampleNote: "Invented note: a new seating plan today.",
    sampleInterruption: "Invented: an announcement over the loudspeaker",
    samplePrivileges: [
      "Choose my seat for a lesson",
      "Read aloud to the class",
      "Choose the class’s game",
    ],
    sampleTeams: ["Lanterns", "Kites"],
    sampleFamily: "Family and student (invented)",
    sampleGoals: ["I begin when work begins", "I ask for help when I am stuck"],
    sampleLessons: ["Reading", "Numbers", "Nature", "Art"],
    sampleWentWell: "Invented: began at once and stayed with it.",
    sampleEarns: "I choose the class’s game on Friday",
    sampleAdult: "The class teacher",
  },
  es: {
    firstPlan: "Primer plan",
    importedPlan: "Registros anteriores",
    sampleClass: "Clase de muestra (inventada)",
    sampleTarget: "Mis ojos y mis manos están en mi trabajo, o pido ayuda con él.",
    sampleNote: "Nota inventada: hoy cambiamos de asientos.",
    sampleInterruption: "Inventado: un aviso por el altavoz",
    samplePrivileges: [
      "Elegir mi sitio en una clase",
      "Leer en voz alta a la clase",
      "Elegir el juego de la clase",
    ],
    sampleTeams: ["Faroles", "Cometas"],
    sampleFamily: "Familia y alumno (inventado)",
    sampleGoals: ["Empiezo cuando toca empezar", "Pido ayuda cuando me atasco"],
    sampleLessons: ["Lectura", "Números", "Naturaleza", "Dibujo"],
    sampleWentWell: "Inventado: empezó enseguida y siguió trabajando.",
    sampleEarns: "Elijo el juego de la clase del viernes",
    sampleAdult: "Quien da la clase",
  },
};
