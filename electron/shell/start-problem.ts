import { ArgumentError } from "../host/arguments.ts";
import { StoreError, type StoreProblem } from "../store/store.ts";
import type { Language } from "./words.ts";

/** What a dialog says when the app cannot start, and the backup that could be put back, if any. */
export interface StartProblem {
  readonly message: string;
  readonly backup: string | null;
}

const inSpanish: Readonly<Record<StoreProblem, string>> = {
  "folder-taken":
    "Pebblechime ya está abierto con esta carpeta de datos. Use la ventana abierta o ciérrela primero.",
  foreign:
    "El archivo de la carpeta de datos es de otro programa. Muévalo o elija otra carpeta de datos.",
  newer:
    "Estos datos se guardaron con una versión más nueva de Pebblechime. Instale la versión más reciente para abrirlos.",
  damaged:
    "El archivo de datos está dañado. No se cambió nada. Restaure la copia más reciente para seguir; el archivo dañado se conservará a su lado.",
  "entry-damaged":
    "Una parte del registro de esta sesión está dañada y no se puede leer. En Ajustes, elija seguir sin las entradas dañadas, o restaure una copia anterior al daño.",
  full: "El disco está lleno y no se puede guardar nada más. Libere espacio e inténtelo de nuevo.",
  "read-only":
    "No se puede escribir en la carpeta de datos. Compruebe que tiene permiso para cambiar archivos en ella y que el disco no está bloqueado.",
  "reading-only":
    "Pebblechime está abierto solo para leer, así que no se puede guardar nada. Arregle lo que dice su aviso y ábralo de nuevo.",
  busy: "Otro programa está usando el archivo de datos. Ciérrelo e inténtelo de nuevo.",
  failed:
    "No se pudieron guardar o leer los datos. Inténtelo de nuevo; si vuelve a ocurrir, reinicie Pebblechime.",
};

const unknownProblem: Readonly<Record<Language, string>> = {
  en: "Something unexpected went wrong and nothing was changed. Try again; if it happens again, install Pebblechime again. Your data stays where it is.",
  es: "Ocurrió algo inesperado y no se cambió nada. Inténtelo de nuevo; si vuelve a ocurrir, instale Pebblechime otra vez. Sus datos se quedan donde están.",
};

/** Words what kept the app from starting, with what to do about it. */
export function startProblem(error: unknown, language: Language): StartProblem {
  if (error instanceof StoreError) {
    const message = language === "es" ? inSpanish[error.problem] : error.message;
    return { message, backup: error.backup };
  }
  if (error instanceof ArgumentError) return { message: error.message, backup: null };
  return { message: unknownProblem[language], backup: null };
}
