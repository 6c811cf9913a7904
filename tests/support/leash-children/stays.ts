// For the test of the leash: a process that stays, and says so.
setInterval(() => undefined, 1000);
process.stdout.write("here\n");
