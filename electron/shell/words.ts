import type { languages } from "../../shared/api/app.ts";

export type Language = (typeof languages)[number];

/** The few words the shell itself says, in menus and in dialogs that open when there is no page to ask. */
export interface ShellWords {
  readonly file: string;
  readonly edit: string;
  readonly view: string;
  readonly window: string;
  readonly help: string;
  readonly openBoard: string;
  readonly print: string;
  readonly savePdf: string;
  readonly pdfFailed: string;
  readonly chooseFolder: string;
  readonly openDataFolder: string;
  readonly undo: string;
  readonly redo: string;
  readonly cut: string;
  readonly copy: string;
  readonly paste: string;
  readonly selectAll: string;
  readonly reload: string;
  readonly actualSize: string;
  readonly larger: string;
  readonly smaller: string;
  readonly fullScreen: string;
  readonly minimize: string;
  readonly close: string;
  readonly quit: string;
  readonly about: string;
  readonly leaveTitle: string;
  readonly leaveDetail: string;
  readonly leaveStay: string;
  readonly leaveGo: string;
  readonly startFailed: string;
  readonly restoreBackup: string;
  readonly leave: string;
  readonly broken: string;
  readonly backupNotOpened: string;
  readonly backupInSession: string;
  readonly backupUnreadable: string;
}

export const shellWords: Readonly<Record<Language, ShellWords>> = {
  en: {
    file: "&File",
    edit: "&Edit",
    view: "&View",
    window: "&Window",
    help: "&Help",
    openBoard: "Open the class board",
    print: "Print…",
    savePdf: "Save as PDF…",
    pdfFailed: "The PDF could not be saved. Choose another folder or name and try again.",
    chooseFolder: "Choose a folder",
    openDataFolder: "Show the data folder",
    undo: "Undo",
    redo: "Redo",
    cut: "Cut",
    copy: "Copy",
    paste: "Paste",
    selectAll: "Select all",
    reload: "Reload this page",
    actualSize: "Actual size",
    larger: "Larger",
    smaller: "Smaller",
    fullScreen: "Full screen",
    minimize: "Minimize",
    close: "Close window",
    quit: "Quit Pebblechime",
    about: "About Pebblechime",
    leaveTitle: "A session is running. Close Pebblechime?",
    leaveDetail:
      "No more cues will sound. Everything recorded so far is kept, and you can resume the session when you open Pebblechime again.",
    leaveStay: "Keep it open",
    leaveGo: "Close",
    startFailed: "Pebblechime could not start",
    restoreBackup: "Restore the newest backup",
    leave: "Close",
    broken:
      "The window failed several times in a row. Everything recorded is kept. Open Pebblechime again to go on.",
    backupNotOpened: "The backup was not opened",
    backupInSession: "A session is running. End it first, then open the backup again.",
    backupUnreadable:
      "It is damaged, is not a Pebblechime backup, or is from a newer version. Nothing was changed. Try another copy, or update Pebblechime.",
  },
  es: {
    file: "&Archivo",
    edit: "&Edición",
    view: "&Ver",
    window: "Ve&ntana",
    help: "A&yuda",
    openBoard: "Abrir el tablero de la clase",
    print: "Imprimir…",
    savePdf: "Guardar como PDF…",
    pdfFailed: "No se pudo guardar el PDF. Elija otra carpeta u otro nombre e inténtelo de nuevo.",
    chooseFolder: "Elegir una carpeta",
    openDataFolder: "Mostrar la carpeta de datos",
    undo: "Deshacer",
    redo: "Rehacer",
    cut: "Cortar",
    copy: "Copiar",
    paste: "Pegar",
    selectAll: "Seleccionar todo",
    reload: "Volver a cargar esta página",
    actualSize: "Tamaño real",
    larger: "Más grande",
    smaller: "Más pequeño",
    fullScreen: "Pantalla completa",
    minimize: "Minimizar",
    close: "Cerrar la ventana",
    quit: "Salir de Pebblechime",
    about: "Acerca de Pebblechime",
    leaveTitle: "Hay una sesión en marcha. ¿Cerrar Pebblechime?",
    leaveDetail:
      "No sonarán más señales. Todo lo registrado hasta ahora se conserva, y podrá reanudar la sesión cuando vuelva a abrir Pebblechime.",
    leaveStay: "Dejarlo abierto",
    leaveGo: "Cerrar",
    startFailed: "Pebblechime no pudo abrirse",
    restoreBackup: "Restaurar la copia más reciente",
    leave: "Cerrar",
    broken:
      "La ventana falló varias veces seguidas. Todo lo registrado se conserva. Vuelva a abrir Pebblechime para continuar.",
    backupNotOpened: "No se abrió la copia",
    backupInSession: "Hay una sesión en marcha. Termínela y vuelva a abrir la copia.",
    backupUnreadable:
      "Está dañada, no es una copia de Pebblechime o es de una versión más nueva. No se cambió nada. Pruebe con otra copia o actualice Pebblechime.",
  },
};

/** The system's language if the shell speaks it, otherwise English. */
export function languageOf(locale: string): Language {
  return locale.toLowerCase().startsWith("es") ? "es" : "en";
}
