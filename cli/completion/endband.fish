# Completion of endband for fish. The program itself is asked for all that there is to say.
function __endband_complete
    set -l words (commandline -opc)
    set -l program $words[1]
    set -e words[1]
    set -l typed (commandline -ct)
    set -l plain (string unescape -- $typed; or string trim --left --chars "\"'" -- $typed)
    set -l lines ($program complete -- $words "$plain" 2>/dev/null)
    switch "$lines[1]"
        case files
            __fish_complete_path $plain
        case folders
            __fish_complete_directories $plain
    end
    test (count $lines) -gt 2; and printf '%s\n' $lines[3..-1]
end
complete -c endband -f -a '(__endband_complete)'
