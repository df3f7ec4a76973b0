/** More students or rounds than a class and a school year have are a slip of the pen. */
export const mostTeamStudents = 60;
export const mostTeamRounds = 60;
