@echo off
rem Starts padtrue.jar, which lies beside this file, with the first Java of version 17 or newer: runtime\ beside this
rem file, JAVA_HOME, the PATH. Flags in PADTRUE_JAVA_OPTS come last.
setlocal
set "here=%~dp0"
set "found="
call :look "%here%runtime\bin\java.exe"
if defined JAVA_HOME call :look "%JAVA_HOME%\bin\java.exe"
for %%j in (java.exe) do call :look "%%~$PATH:j"
if not defined found (
  echo padtrue: no Java 17 or newer was found in JAVA_HOME or on the PATH; install one, or set JAVA_HOME to its folder 1>&2
  exit /b 2
)
rem A command ends before the second compiler would pay; the server runs on.
set "compiler=-XX:TieredStopAtLevel=1"
if "%~1"=="serve" set "compiler=-XX:+TieredCompilation"
"%found%" %compiler% -XX:+UseSerialGC %PADTRUE_JAVA_OPTS% -jar "%here%padtrue.jar" %*
exit /b %errorlevel%

:look
if defined found exit /b 0
if "%~1"=="" exit /b 0
if not exist "%~1" exit /b 0
set "number="
for /f "tokens=3" %%v in ('""%~1" -version 2^>^&1"') do if not defined number set "number=%%~v"
for /f "delims=.-+ " %%v in ("%number%") do set "number=%%v"
set /a number=number 2>nul
if %number% geq 17 set "found=%~1"
exit /b 0
