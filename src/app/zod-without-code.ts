import { config } from "zod";

// Zod would try whether it may make code from text. The content policy forbids that, and each attempt is
// reported as an error. It looks when a schema is made, so this is bundled with Zod itself (vite.config.ts).
config({ jitless: true });
